"""How far a tablet has counted and when it was last heard are what a walk through all its lines would say."""

from sqlalchemy import func, select

from server.record.book_of_lines import Record
from server.record.lines import NewLine
from server.record.tables.columns import LINE
from tests.record.fixtures import append
from tests.record.sample_lines import DEVICE, new_entry

OTHER = "TAB-9"


def lines() -> list[NewLine]:
    """Entries of two boots and another tablet, one sent again, one without its clock, one not understood, one late."""
    return [
        new_entry(3),
        new_entry(7),
        new_entry(4, boot="b2"),
        new_entry(4, boot="b2")._replace(state="taken before", received_ms=9_000_000_000_000),
        new_entry(11)._replace(mono_ms=None),
        new_entry(12)._replace(state="taken, not understood"),
        new_entry(5)._replace(device=OTHER),
        new_entry(2, boot="b2")._replace(device=OTHER, received_ms=1),
    ]


def walked(record: Record) -> tuple[dict[str, int], dict[str, int]]:
    """The same from every line there is."""
    asked = select(LINE.device, func.max(LINE.seq), func.max(LINE.received_ms)).where(LINE.kind == "entry")
    with record._engines.reading.connect() as connection:
        rows = connection.execute(asked.group_by(LINE.device)).all()
    return {row[0]: row[1] for row in rows}, {row[0]: row[2] for row in rows}


def test_it_is_what_a_walk_would_say(either: Record):
    """Line by line, carried on or asked in the writer's turn, the counts and moments are those of all lines."""
    for each in lines():
        append(either, each)
        counts, moments = walked(either)
        with either.reads() as reads:
            assert {device: reads.counted_by(device) for device in counts} == counts
            assert reads.last_heard([DEVICE, OTHER, "TAB-0"]) == moments
    assert counts == {DEVICE: 12, OTHER: 5}


def test_a_device_goes_on_counting_where_the_record_saw_it_last(record: Record) -> None:
    """The highest count of a device is given, however its entries arrived; an unknown device has counted nothing."""
    append(record, new_entry(7), new_entry(3))
    with record.reads() as reads:
        counts = reads.counted_by(DEVICE), reads.counted_by("TAB-9")
    assert counts == (7, 0)
