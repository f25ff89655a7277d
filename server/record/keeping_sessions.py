"""Changes of sessions: opened, seen, ended one by one or all of a person or a device."""

from sqlalchemy import delete, insert, update

from server.record.door_facts import Session
from server.record.tables.columns import SESSION, SESSION_TABLE
from server.record.written import Change


def open_session(session: Session) -> Change:
    """Open a session."""
    return lambda connection: connection.execute(insert(SESSION_TABLE), session._asdict())


def seen_session(token_hash: str, seen_ms: int) -> Change:
    """Note that a session was used."""
    noted = update(SESSION_TABLE).where(SESSION.token_hash == token_hash).values(seen_ms=seen_ms)
    return lambda connection: connection.execute(noted)


def act_in(token_hash: str, role: str) -> Change:
    """Go on in another role from now on; what was done before stays as it was told."""
    told = update(SESSION_TABLE).where(SESSION.token_hash == token_hash).values(role=role)
    return lambda connection: connection.execute(told)


def end_session(token_hash: str) -> Change:
    """End a session: its token opens nothing any more."""
    return lambda connection: connection.execute(delete(SESSION_TABLE).where(SESSION.token_hash == token_hash))


def end_sessions(*, person: str | None = None, device: str | None = None, before_ms: int | None = None) -> Change:
    """End the sessions of a person, on a device, or whose time is up before a moment; with nothing named, all."""
    gone = delete(SESSION_TABLE)
    gone = gone if person is None else gone.where(SESSION.person == person)
    gone = gone if device is None else gone.where(SESSION.device == device)
    gone = gone if before_ms is None else gone.where(SESSION.ends_ms < before_ms)
    return lambda connection: connection.execute(gone)
