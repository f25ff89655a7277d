"""A judging is kept beside the one before: only what differs is written, and what is gone is said to be gone."""

from typing import Any

import pytest

from server.facts.judged import Severity, Verdict, Word
from server.record.book_of_lines import Record
from server.record.judged import Judged, pack, unpack
from server.record.keeping_judged import keep_judged, keep_judged_to
from server.record.tables.columns import FINDING_TABLE, VERDICT_TABLE
from tests.record.fixtures import append

JOINT = "F-1/J1#1"


def verdict(word: Word, question: str = "heat", subject: str = JOINT, **further: Any) -> Verdict:
    told: dict[str, Any] = {"message": "too hot", "value": 0.62, "unit": "kJ/mm", "high": 0.5}
    return Verdict(question, subject, word, Severity.STOP, **(told | {"rests_on": ("TAB-1:b1:1",)} | further))


def judged(*verdicts: Verdict, subject: str = JOINT, frame: str | None = "F-1") -> Judged:
    return Judged(subject, "joint", frame, verdicts)


def keep(record: Record, known_at: int, *several: Judged, book: str = "then", whole: tuple[str, ...] = ()) -> None:
    append(record, changes=(keep_judged(several, known_at, book, whole),))


def rows(record: Record) -> tuple[int, int]:
    with record.reads() as reads:
        count = reads._connection.execute
        return (
            len(count(VERDICT_TABLE.select()).all()),
            len(count(FINDING_TABLE.select()).all()),
        )


def test_a_finding_comes_back_as_it_was_judged(either: Record):
    """A verdict somebody must read is kept in every field, with its frame, its position and its book."""
    told = verdict(Word.OUTSIDE, low=0.1, uncertainty=0.02, proved=False, source="rev C", caution="UV", allowed=("a",))
    keep(either, 7, judged(told))
    with either.reads() as reads:
        (found,) = reads.findings()
        assert reads.verdicts_of(JOINT) == (told,)
    assert found.verdict == told
    assert (found.frame, found.known_at, found.book, found.key) == ("F-1", 7, "then", f"{JOINT}|heat")


def test_what_is_within_is_kept_shortly(either: Record):
    """A verdict within keeps its word, value and limit, and stands under no finding."""
    keep(either, 7, judged(verdict(Word.WITHIN, value=0.4), verdict(Word.NOT_ASKED, "colour", value=None, high=None)))
    with either.reads() as reads:
        assert reads.findings() == []
        heat, colour = reads.verdicts_of(JOINT)
        assert reads.verdicts_of_frame("F-1") == {(JOINT, "joint"): (heat, colour)}
    assert (heat.question, heat.word, heat.value, heat.unit, heat.high) == ("heat", Word.WITHIN, 0.4, "kJ/mm", 0.5)
    assert (colour.question, colour.word, colour.value) == ("colour", Word.NOT_ASKED, None)


def test_judging_the_same_again_writes_nothing(either: Record):
    """The same verdicts judged at a later position add no row."""
    keep(either, 7, judged(verdict(Word.OUTSIDE)))
    before = rows(either)
    keep(either, 9, judged(verdict(Word.OUTSIDE)))
    assert rows(either) == before == (1, 1)


@pytest.mark.parametrize(
    ("changed", "more"),
    [
        (verdict(Word.OUTSIDE, value=0.7), (1, 1)),
        (verdict(Word.MARGINAL), (1, 1)),
        (verdict(Word.OUTSIDE, rests_on=("TAB-1:b1:2",)), (1, 1)),
        (verdict(Word.WITHIN), (1, 1)),
    ],
)
def test_what_differs_is_written_beside_the_old(either: Record, changed: Verdict, more: tuple[int, int]):
    """Another value, word or entry it rests on adds a row; the old one is still known as of then."""
    keep(either, 7, judged(verdict(Word.OUTSIDE)))
    keep(either, 9, judged(changed))
    assert rows(either) == (1 + more[0], 1 + more[1])
    with either.reads() as reads:
        assert [found.verdict for found in reads.findings(known_at=8)] == [verdict(Word.OUTSIDE)]
        assert [found.verdict for found in reads.findings()] == [changed] * (changed.word != Word.WITHIN)


def test_of_two_findings_only_the_changed_one_is_written(either: Record):
    """When one of a subject's findings changes, the other is not written again."""
    keep(either, 7, judged(verdict(Word.OUTSIDE), verdict(Word.MARGINAL, "colour")))
    keep(either, 9, judged(verdict(Word.OUTSIDE, value=0.7), verdict(Word.MARGINAL, "colour")))
    assert rows(either) == (2, 3)
    with either.reads() as reads:
        assert [found.known_at for found in reads.findings()] == [7, 9]


def test_a_finding_that_is_gone_keeps_its_history(either: Record):
    """A finding that a later judging no longer finds stands no more, and its history says from when to when."""
    keep(either, 7, judged(verdict(Word.OUTSIDE)))
    keep(either, 9, judged(verdict(Word.WITHIN)))
    keep(either, 11, judged(verdict(Word.UNKNOWN)))
    with either.reads() as reads:
        history = reads.finding_history(f"{JOINT}|heat")
    assert [(found.known_at, found.verdict.word, gone) for found, gone in history] == [
        (7, Word.OUTSIDE, False),
        (9, Word.OUTSIDE, True),
        (11, Word.UNKNOWN, False),
    ]


def test_what_a_whole_frame_no_longer_has_is_gone(either: Record):
    """When a frame is judged whole, a subject not among what was judged, such as a joint corrected away, is gone."""
    other = judged(verdict(Word.OUTSIDE, subject="F-2/J1#1"), subject="F-2/J1#1", frame="F-2")
    keep(either, 7, judged(verdict(Word.OUTSIDE)), other)
    kept = judged(verdict(Word.OUTSIDE, subject="F-1/J2#1"), subject="F-1/J2#1")
    keep(either, 9, kept, whole=("F-1",))
    with either.reads() as reads:
        assert {found.verdict.subject for found in reads.findings()} == {"F-1/J2#1", "F-2/J1#1"}
        assert reads.verdicts_of(JOINT) == ()


def test_judged_in_part_nothing_else_is_gone(either: Record):
    """Control: without the word that the frame was judged whole, what was not judged stays as it was."""
    keep(either, 7, judged(verdict(Word.OUTSIDE)))
    keep(either, 9, judged(verdict(Word.OUTSIDE, subject="F-1/J2#1"), subject="F-1/J2#1"))
    with either.reads() as reads:
        assert {found.verdict.subject for found in reads.findings(frame="F-1")} == {JOINT, "F-1/J2#1"}


def test_books_do_not_disturb_each_other(either: Record):
    """What another book says is kept and asked for apart."""
    keep(either, 7, judged(verdict(Word.OUTSIDE)))
    keep(either, 7, judged(verdict(Word.OUTSIDE)), book="tomorrow")
    keep(either, 7, judged(verdict(Word.WITHIN)), book="today")
    with either.reads() as reads:
        assert len(reads.findings()) == 1
        assert reads.findings(book="today") == []
        assert [each.word for each in reads.verdicts_of(JOINT, book="today")] == [Word.WITHIN]
        assert [each.book for each in reads.findings(book="tomorrow")] == ["tomorrow"]


def test_findings_by_key_and_by_frame(either: Record):
    """Findings are asked for by their keys, by their frame, or all."""
    line = Judged("T-1", "line", None, (verdict(Word.OUTSIDE, "bead", "T-1"),))
    keep(either, 7, judged(verdict(Word.OUTSIDE), verdict(Word.MARGINAL, "colour")), line)
    with either.reads() as reads:
        assert len(reads.findings()) == 3
        assert [found.key for found in reads.findings(keys=["T-1|bead", "nothing|x"])] == ["T-1|bead"]
        assert len(reads.findings(frame="F-1")) == 2


def test_the_watermark_only_rises(either: Record):
    """How far everything has been judged is the furthest position told, per book."""
    for position in (5, 9, 7):
        append(either, changes=(keep_judged_to(position, "then", 0),))
    with either.reads() as reads:
        assert (reads.judged_to(), reads.judged_to("today")) == (9, 0)


def test_many_are_judged_in_few_statements(either: Record):
    """A thousand subjects are kept in as many statements as one, first and again."""

    def statements(count: int, value: float) -> int:
        several = [
            judged(verdict(Word.OUTSIDE, subject=f"F-1/J{number}#1", value=value), subject=f"F-1/J{number}#1")
            for number in range(count)
        ]
        with either.counting() as seen:
            keep(either, 7, *several)
        return len([each for each in seen if "verdict" in each or "finding" in each])

    assert statements(1, 1.0) == 3
    assert statements(1, 2.0) == 4
    assert statements(1000, 3.0) == 4
    assert statements(1000, 4.0) == 4


def test_packing_keeps_each_verdicts_own_subject():
    """A verdict about a quarter, packed with its joint, comes back under the quarter."""
    both = judged(verdict(Word.WITHIN), verdict(Word.WITHIN, "colour", f"{JOINT}:q12"))
    words = pack(both).words
    assert [each.subject for each in unpack(JOINT, words)] == [JOINT, f"{JOINT}:q12"]


def test_one_level_never_takes_back_what_another_found(either: Record):
    """A joint judged with its frame and with what frames share keeps the findings of both, whichever came last."""
    shared = Judged(JOINT, "shared", "F-1", (verdict(Word.OUTSIDE, "concession"),))
    append(either, changes=(keep_judged([judged(verdict(Word.OUTSIDE))], 7, "then", ("F-1",), level="joint"),))
    append(either, changes=(keep_judged([shared], 7, "then", level="shared", whole_level=True),))
    append(either, changes=(keep_judged([judged(verdict(Word.OUTSIDE))], 8, "then", ("F-1",), level="joint"),))

    with either.reads() as reads:
        assert {each.verdict.question for each in reads.findings(frame="F-1")} == {"heat", "concession"}


def test_a_level_judged_whole_lets_go_of_what_is_not_there_any_more(either: Record):
    """What stood on a level and was not judged again is gone, once; the other level stands."""
    shared = Judged("T-1@x", "shared", None, (verdict(Word.OUTSIDE, "bead", "T-1@x"),))
    append(either, changes=(keep_judged([judged(verdict(Word.OUTSIDE))], 7, "then", level="joint"),))
    append(either, changes=(keep_judged([shared], 7, "then", level="shared", whole_level=True),))
    before = rows(either)

    for known_at in (8, 9):
        append(either, changes=(keep_judged([], known_at, "then", level="shared", whole_level=True),))

    with either.reads() as reads:
        assert {each.verdict.question for each in reads.findings()} == {"heat"}
    assert rows(either) == (before[0] + 1, before[1] + 1)
