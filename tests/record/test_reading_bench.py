"""What a bench asks the record: entries as they were sent, and how far a device has counted."""

import json

from server.record.book_of_lines import Record
from tests.record.fixtures import append
from tests.record.sample_lines import DEVICE, FRAME, new_entry


def test_entries_of_the_frames_and_of_the_shared_kinds_are_given_as_sent(record: Record) -> None:
    """Passes of the frames asked for and beads of no frame come back byte for byte, in order; other frames do not."""
    lines = [
        new_entry(1),
        new_entry(2, frame="F-2"),
        new_entry(3, "bead", line="T-1", result="good"),
        new_entry(4, "sleeve", sleeve="S-1", act="opened"),
    ]
    append(record, *lines)
    with record.reads() as reads:
        found = reads.bodies_for_bench([FRAME], ["sleeve"])
    assert found == [lines[0].body, lines[3].body]


def test_a_frame_nobody_asks_for_costs_nothing(record: Record) -> None:
    """Without frames and kinds there are no entries, and it is one question all the same."""
    append(record, new_entry(1))
    with record.counting() as asked, record.reads() as reads:
        assert reads.bodies_for_bench([], []) == []
    assert len(asked) == 1


def test_a_device_goes_on_counting_where_the_record_saw_it_last(record: Record) -> None:
    """The highest count of a device is given, however its entries arrived; an unknown device has counted nothing."""
    append(record, new_entry(7), new_entry(3))
    with record.reads() as reads:
        counts = reads.counted_by(DEVICE), reads.counted_by("TAB-9")
    assert counts == (7, 0)


def test_what_was_not_understood_is_not_told_to_a_tablet(record: Record) -> None:
    """A line that could not be read stays out of the sheet, since a tablet could not read it either."""
    append(record, new_entry(1)._replace(state="taken, not understood"), new_entry(2))
    with record.reads() as reads:
        found = reads.bodies_for_bench([FRAME], [])
    assert [json.loads(body)["seq"] for body in found] == [2]
