"""The passes of a frame as they stand: corrections read in, the withdrawn gone, traces beside them."""

import pytest

from server.record.book_of_lines import Record
from server.work.frame_passes import frame_passes, one_pass
from server.work.refusal import NotThere
from tests.record.fixtures import append
from tests.record.sample_lines import FRAME, entry_told, new_entry

ONE, TWO = (str(entry_told(number)["id"]) for number in (1, 2))


def test_newest_first_with_corrections_read_in(record: Record) -> None:
    """Passes come newest first, a corrected one as it stands now."""
    append(record, new_entry(1), new_entry(2, happened="2025-03-18T13:00:00.000Z"))
    append(record, new_entry(3, "correction", of=ONE, change={"joint": "J2"}, reason="wrong joint"))
    with record.reads() as reads:
        found = frame_passes(reads, FRAME)
    assert [(each.entry.id, each.entry.joint) for each in found] == [(TWO, "J1"), (ONE, "J2")]


def test_a_trace_stands_beside_its_pass(record: Record) -> None:
    """Each pass has the traces that name it, and no other's."""
    append(record, new_entry(1), new_entry(2))
    append(record, new_entry(3, "trace", of=TWO, sha256="ab", instrument="PS-9"))
    with record.reads() as reads:
        traces = {each.entry.id: [trace.sha256 for trace in each.traces] for each in frame_passes(reads, FRAME)}
    assert traces == {ONE: [], TWO: ["ab"]}


def test_a_withdrawn_pass_is_gone(record: Record) -> None:
    """A pass withdrawn is in no list, and asked for by its id it is said to be withdrawn."""
    append(record, new_entry(1), new_entry(2, "correction", of=ONE, withdraw=True, reason="another frame"))
    with record.reads() as reads:
        assert frame_passes(reads, FRAME) == []
        with pytest.raises(NotThere, match="withdrawn"):
            one_pass(reads, ONE)


@pytest.mark.parametrize("name", ["nobody", "", "\x00", f"{TWO}"])
def test_what_is_no_pass_is_not_found(record: Record, name: str) -> None:
    """An id nobody sent, no id at all, and the id of something else are refused by name."""
    append(record, new_entry(1), new_entry(2, "bead", line="T-1", result="good"))
    with record.reads() as reads, pytest.raises(NotThere, match="is no pass in the record"):
        one_pass(reads, name)
