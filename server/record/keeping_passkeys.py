"""Changes of passkeys: one added for a person, its use noted, taken away again."""

from sqlalchemy import delete, insert, update

from server.record.door_facts import Passkey
from server.record.tables.columns import PASSKEY, PASSKEY_TABLE
from server.record.written import Change


def add_passkey(passkey: Passkey) -> Change:
    """Add a passkey."""
    return lambda connection: connection.execute(insert(PASSKEY_TABLE), passkey._asdict())


def used_passkey(name: str, sign_count: int, used_ms: int) -> Change:
    """Note that a passkey was used, and the count it gave."""
    noted = update(PASSKEY_TABLE).where(PASSKEY.id == name).values(sign_count=sign_count, used_ms=used_ms)
    return lambda connection: connection.execute(noted)


def drop_passkey(person: str, name: str) -> Change:
    """Take a passkey of a person away."""
    gone = delete(PASSKEY_TABLE).where(PASSKEY.person == person, PASSKEY.id == name)
    return lambda connection: connection.execute(gone)
