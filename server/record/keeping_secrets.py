"""Changes of secrets: one set in place of the one before, and the tries that failed counted and forgotten."""

from sqlalchemy import Connection, delete, insert

from server.record.door_facts import Credential, FailedTry
from server.record.tables.columns import CREDENTIAL, CREDENTIAL_TABLE, FAILED_TRY, FAILED_TRY_TABLE
from server.record.written import Change


def keep_credential(credential: Credential) -> Change:
    """Set a person's secret of one kind, in place of the one before."""

    def change(connection: Connection) -> None:
        same = (CREDENTIAL.person == credential.person, CREDENTIAL.kind == credential.kind)
        connection.execute(delete(CREDENTIAL_TABLE).where(*same))
        connection.execute(insert(CREDENTIAL_TABLE), credential._asdict())

    return change


def drop_credential(person: str, kind: str) -> Change:
    """Take a person's secret of one kind away."""
    gone = delete(CREDENTIAL_TABLE).where(CREDENTIAL.person == person, CREDENTIAL.kind == kind)
    return lambda connection: connection.execute(gone)


def keep_failed_try(failed: FailedTry) -> Change:
    """Set how often a person was refused on a device."""

    def change(connection: Connection) -> None:
        forget_failed_tries(failed.person, failed.device)(connection)
        connection.execute(insert(FAILED_TRY_TABLE), failed._asdict())

    return change


def forget_failed_tries(person: str, device: str) -> Change:
    """Forget the failed tries of a person on a device, once one succeeded."""
    same = (FAILED_TRY.person == person, FAILED_TRY.device == device)
    return lambda connection: connection.execute(delete(FAILED_TRY_TABLE).where(*same))
