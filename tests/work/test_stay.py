"""A session in use stays; one left alone idles out."""

from server.record.book_of_lines import Record
from server.record.door_facts import Session
from server.record.keeping_sessions import open_session
from server.record.written import Written
from server.work.stay import stay

OPENED = Session("hash", "P1", "welder", "TAB-1", 1_000, 1_000, 9_000_000)


def seen_at(record: Record, at_ms: int) -> int:
    """Note a use, wait until the writer is through, and read when the session was last seen."""
    with record.reads() as reads:
        session = reads.session("hash")
    assert session is not None
    stay(record, session, at_ms)
    record.write(lambda _: Written(lambda _: None)).result()
    with record.reads() as reads:
        after = reads.session("hash")
    assert after is not None
    return after.seen_ms


def test_use_is_noted_once_a_minute(record: Record):
    """A use within the same minute writes nothing; one after it moves the moment last seen."""
    record.write(lambda _: Written(lambda _: None, changes=(open_session(OPENED),))).result()
    assert seen_at(record, 60_999) == 1_000
    assert seen_at(record, 61_000) == 61_000


def test_a_closed_record_turns_nobody_away(record: Record):
    """Where nothing can be written any more, the use goes unnoted and nothing is raised."""
    record.close()
    stay(record, OPENED, 99_000)
