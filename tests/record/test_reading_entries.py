"""Entries as they are asked for: by frame, by no frame, by subject, as known then; in few statements however many."""

from typing import Any

import pytest

from server.evidence.chain_subject import ChainSubject
from server.facts.recorded import Recorded
from server.record.book_of_lines import Record
from tests.record.fixtures import append
from tests.record.sample_lines import BEAD, FRAME, new_entry


def correction(number: int, of: int, **further: Any):
    mended = {"of": f"TAB-1:b1:{of}", "change": {"joint": "J2"}, "reason": "wrong joint tapped"}
    return new_entry(number, "correction", **mended | further)


def numbers(entries: list[Recorded]) -> list[int]:
    return [each.entry.seq for each in entries]


def test_entries_come_back_as_they_were_told(either: Record):
    """An entry read back is the noun that was sent, at its position with both of its times."""
    line = new_entry(1)
    append(either, line)
    with either.reads() as reads:
        (found,) = reads.frame_entries(FRAME)
    assert (found.position, found.received_ms, found.sent_ms) == (1, line.received_ms, line.sent_ms)
    assert found.entry.kind == "pass"
    assert found.entry.values["oxygen"].value == 41


def test_a_frame_has_its_own_entries(either: Record):
    """One frame's entries come without another's, in their order; several frames come in one question."""
    append(either, new_entry(1), new_entry(2, frame="F-2"), new_entry(3))
    with either.reads() as reads, either.counting() as statements:
        assert numbers(reads.frame_entries(FRAME)) == [1, 3]
        found = reads.frames_entries([FRAME, "F-2", "F-9"])
    assert {frame: numbers(entries) for frame, entries in found.items()} == {FRAME: [1, 3], "F-2": [2], "F-9": []}
    assert len(statements) == 2


@pytest.mark.parametrize("order", [(1, 2), (2, 1)])
def test_a_correction_stands_with_what_it_mends(either: Record, order: tuple[int, int]):
    """A correction, which names no frame, comes with the frame of the entry it mends, even if it arrived before it."""
    lines = {1: new_entry(1), 2: correction(2, of=1)}
    for number in order:
        append(either, lines[number])
    with either.reads() as reads:
        assert numbers(reads.frame_entries(FRAME)) == list(order)


def test_entries_of_no_frame(either: Record):
    """What is bound to no frame is shared by all: a bead, a correction of a bead; not a pass."""
    append(either, new_entry(1), new_entry(2, "bead", **BEAD), correction(3, of=2))
    with either.reads() as reads:
        assert numbers(reads.shared_entries()) == [2, 3]


def test_entries_by_subject(either: Record):
    """A gas line's chain has its beads and its passes, an instrument's what it read, each entry once."""
    append(either, new_entry(1), new_entry(2, "bead", **BEAD), new_entry(3, torch_line="T-2"))
    line, instrument = ChainSubject("gas line", "T-1"), ChainSubject("instrument", "PA-1")
    with either.reads() as reads:
        assert numbers(reads.entries_by([line])) == [1, 2]
        assert numbers(reads.entries_by([instrument])) == [1, 3]
        assert numbers(reads.entries_by([line, instrument])) == [1, 2, 3]
        assert numbers(reads.entries_by([line, instrument], kinds=["pass"])) == [1, 3]
        assert numbers(reads.entries_by([ChainSubject("gas line", "T-9")])) == []


def test_photos(either: Record):
    """Pictures are found wherever they belong."""
    append(either, new_entry(1), new_entry(2, "photo", sha256="ab", frame=FRAME), new_entry(3, "photo", sha256="cd"))
    with either.reads() as reads:
        assert numbers(reads.photos()) == [2, 3]


def test_every_question_can_be_asked_of_then(either: Record):
    """Asked as known at a position, no answer knows what came later; asked again of now, every answer does."""
    append(either, new_entry(1), new_entry(2, "bead", **BEAD), new_entry(3, "photo", sha256="ab", frame=FRAME))
    append(either, new_entry(4), new_entry(5, "bead", **BEAD), new_entry(6, "photo", sha256="cd", frame=FRAME))

    def ask(known_at: int | None) -> list[list[int]]:
        line = ChainSubject("gas line", "T-1")
        with either.reads() as reads:
            return [
                numbers(reads.frame_entries(FRAME, known_at)),
                numbers(reads.shared_entries(known_at)),
                numbers(reads.entries_by([line], known_at)),
                numbers(reads.photos(known_at)),
                numbers(list(reads.every_entry(known_at))),
                [pair.seq for pair in reads.clock_pairs(known_at)],
            ]

    now = [[1, 3, 4, 6], [2, 5], [1, 2, 4, 5], [3, 6], [1, 2, 3, 4, 5, 6], [1, 2, 3, 4, 5, 6]]
    then = [[1, 3], [2], [1, 2], [3], [1, 2, 3], [1, 2, 3]]
    assert ask(None) == now
    assert ask(3) == then
    assert ask(0) == [[], [], [], [], [], []]
    assert ask(99) == now


def test_the_number_of_statements_does_not_grow(either: Record):
    """Ten entries or three hundred: the same questions take the same number of statements."""

    def statements() -> int:
        with either.reads() as reads, either.counting() as seen:
            reads.registers()
            reads.frame_entries(FRAME)
            reads.shared_entries()
            reads.entries_by([ChainSubject("gas line", "T-1")])
            reads.photos()
            list(reads.every_entry())
            reads.clock_pairs()
            reads.findings()
            reads.verdicts_of_frame(FRAME)
            reads.lines_of_frame(FRAME)
        return len(seen)

    append(either, *(new_entry(number) for number in range(10)))
    few = statements()
    append(either, *(new_entry(number) for number in range(10, 300)))
    append(either, *(new_entry(number, "bead", **BEAD) for number in range(300, 330)))
    assert statements() == few


def test_asking_one_by_one_grows(either: Record):
    """Control: the counter sees a question asked once for each entry."""
    append(either, *(new_entry(number) for number in range(7)))
    with either.reads() as reads, either.counting() as seen:
        for number in range(7):
            reads.line(f"TAB-1:b1:{number}")
    assert len(seen) == 7


def test_what_was_read_once_is_not_read_again(either: Record):
    """Shared entries and clock pairs already known are not fetched a second time, and the new ones are added."""
    append(either, new_entry(1, "bead", **BEAD))
    with either.reads() as reads:
        before = reads.shared_entries()
    append(either, new_entry(2, "bead", **BEAD))
    with either.reads() as reads:
        after = reads.shared_entries()
    assert after[0].entry is before[0].entry
    assert numbers(after) == [1, 2]
