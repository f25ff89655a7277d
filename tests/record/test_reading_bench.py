"""What a bench asks the record: entries as they were sent."""

import json
from typing import Any

from server.record.book_of_lines import Record
from server.record.written import Written
from tests.record.fixtures import append
from tests.record.sample_lines import FRAME, new_entry


def test_entries_of_the_frames_and_corrections_of_none_are_given_as_sent(record: Record) -> None:
    """Passes of the frames asked for and corrections of no frame come back byte for byte, in order; others do not."""
    lines = [
        new_entry(1),
        new_entry(2, frame="F-2"),
        new_entry(3, "bead", line="T-1", result="good"),
        new_entry(4, "sleeve", sleeve="S-1", act="opened"),
        new_entry(5, "correction", of="TAB-1:b1:3", withdraw=True, reason="another line"),
    ]
    append(record, *lines)
    with record.reads() as reads:
        found = reads.bodies_for_bench([FRAME])
    assert found == [lines[0].body, lines[4].body]


def test_what_is_at_the_benches_is_carried_on(record: Record) -> None:
    """A sleeve opened and a cylinder put on are known, also in the writer's turn; only what came since is read."""
    append(record, new_entry(1), new_entry(2, "sleeve", sleeve="S-1", act="opened"))
    with record.reads() as reads:
        assert [each["sleeve"] for each in reads.at_benches().shared(())] == ["S-1"]
    append(record, new_entry(3, "cylinder", line="T-1", on="AR-1"))
    with record.counting() as asked, record.reads() as reads:
        found = reads.at_benches().shared(["T-1"])
    assert [each["kind"] for each in found] == ["sleeve", "cylinder"]
    assert len(asked) == 2
    told: list[Any] = []
    record.write(lambda reads: Written(answer=lambda _: told.append(reads.at_benches().shared(["T-1"])))).result()
    assert told == [found]


def test_the_last_beads_of_a_line(record: Record) -> None:
    """Of a line's beads the last five come back, the newest first, and none of another line's."""
    append(record, *(new_entry(n, "bead", line="T-1", result="good") for n in range(1, 8)))
    append(record, new_entry(8, "bead", line="P-1", result="failed"))
    with record.reads() as reads:
        assert [json.loads(body)["seq"] for body in reads.last_beads("T-1")] == [7, 6, 5, 4, 3]
        assert reads.last_beads("T-9") == []


def test_what_was_not_understood_is_not_told_to_a_tablet(record: Record) -> None:
    """A line that could not be read stays out of the sheet, since a tablet could not read it either."""
    append(record, new_entry(1)._replace(state="taken, not understood"), new_entry(2))
    with record.reads() as reads:
        found = reads.bodies_for_bench([FRAME])
    assert [json.loads(body)["seq"] for body in found] == [2]
