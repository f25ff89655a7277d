"""The tables and their columns, as a question names them."""

from sqlalchemy import Table

from server.record.tables import apart, derived, door, sealed
from server.record.tables.row import Row


def _table(row: type[Row]) -> Table:
    return Row.metadata.tables[str(row.__tablename__)]


LINE_TABLE = _table(sealed.LineRow)
LINK_TABLE = _table(sealed.SubjectLinkRow)
CHECKPOINT_TABLE = _table(sealed.CheckpointRow)
VERDICT_TABLE = _table(derived.VerdictRow)
FINDING_TABLE = _table(derived.FindingRow)
JUDGED_TO_TABLE = _table(derived.JudgedToRow)
CREDENTIAL_TABLE = _table(door.CredentialRow)
SESSION_TABLE = _table(door.SessionRow)
DEVICE_TABLE = _table(door.DeviceRow)
FAILED_TRY_TABLE = _table(door.FailedTryRow)
PASSKEY_TABLE = _table(door.PasskeyRow)
DETAILS_TABLE = _table(apart.CustomerDetailsRow)

LINE = LINE_TABLE.c
LINK = LINK_TABLE.c
CHECKPOINT = CHECKPOINT_TABLE.c
VERDICT = VERDICT_TABLE.c
FINDING = FINDING_TABLE.c
JUDGED_TO = JUDGED_TO_TABLE.c
CREDENTIAL = CREDENTIAL_TABLE.c
SESSION = SESSION_TABLE.c
DEVICE = DEVICE_TABLE.c
FAILED_TRY = FAILED_TRY_TABLE.c
PASSKEY = PASSKEY_TABLE.c
DETAILS = DETAILS_TABLE.c
