"""Notes that a session is in use, so that only one left alone idles out."""

from server.record.book_of_lines import Record
from server.record.door_facts import Session
from server.record.keeping_sessions import seen_session
from server.record.troubles import RecordTrouble
from server.record.written import Written

NOTED_EVERY_MS = 60_000


def stay(record: Record, session: Session, at_ms: int) -> None:
    """Note the use at most once a minute; nobody waits for it, and a record that takes nothing turns nobody away."""
    if at_ms - session.seen_ms < NOTED_EVERY_MS:
        return
    noted = Written(answer=lambda _: None, changes=(seen_session(session.token_hash, at_ms),))
    try:
        record.write(lambda _: noted)
    except RecordTrouble:
        return
