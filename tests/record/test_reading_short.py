"""Standing findings in short, carried on from row to row: the same as those read in full, whoever asked before."""

from server.facts.judged import Severity, Verdict, Word
from server.record.book_of_lines import Record
from server.record.reads import Reads
from tests.record.test_keeping_judged import JOINT, judged, keep, verdict


def told(reads: Reads) -> set[tuple[str, str | None, bool, str | None]]:
    short = [(each, gates) for (_, gates), found in reads.findings_short().items() for each in found.values()]
    assert all(each.gates is gates for each, gates in short)
    return {(each.key, each.frame, gates, each.digest) for each, gates in short}


def in_full(reads: Reads) -> set[tuple[str, str | None, bool, str | None]]:
    """The same from the findings in full; what is marginal has no digest in short."""

    def gates(found: Verdict) -> bool:
        return found.severity is not Severity.NOTE and found.word is not Word.MARGINAL

    return {
        (each.key, each.frame, gates(each.verdict), None if each.verdict.word is Word.MARGINAL else each.digest)
        for each in reads.findings()
    }


def test_in_short_as_in_full(either: Record):
    """After each judging the same findings stand in short as in full: new, changed, turned marginal, gone."""
    outside, unknown = verdict(Word.OUTSIDE), verdict(Word.UNKNOWN, "colour")
    note = verdict(Word.OUTSIDE, "seal")._replace(severity=Severity.NOTE)
    for position, verdicts in enumerate(
        ([outside, unknown, note], [outside._replace(value=0.7), unknown], [verdict(Word.MARGINAL)], [], [outside]), 1
    ):
        keep(either, position, judged(*verdicts), whole=("F-1",))
        with either.reads() as reads:
            assert told(reads) == in_full(reads)
            assert len(told(reads)) == len(verdicts)


def test_what_came_since_is_read_alone(either: Record):
    """Asked again, nothing is read but the number of the last row; another book's findings are not among them."""
    keep(either, 1, judged(verdict(Word.OUTSIDE)))
    keep(either, 1, judged(verdict(Word.OUTSIDE), subject="F-2/J1#1", frame="F-2"), book="today")
    with either.reads() as reads:
        assert {key for key, *_ in told(reads)} == {f"{JOINT}|heat"}
        with either.counting() as asked:
            reads.findings_short()
    assert [each.startswith("SELECT max(") for each in asked] == [True]


def test_an_earlier_state_is_not_told_what_came_after(either: Record):
    """Who looks at an earlier state of the record is told of that state, even when a later one was asked for before."""
    keep(either, 1, judged(verdict(Word.OUTSIDE)))
    with either.reads() as earlier:
        before = in_full(earlier)
        keep(either, 2, judged(), whole=("F-1",))
        with either.reads() as later:
            assert told(later) == set()
        assert told(earlier) == before != set()


def test_rows_give_their_findings(either: Record):
    """The rows named in short are the findings in full."""
    keep(either, 1, judged(verdict(Word.OUTSIDE), verdict(Word.UNKNOWN, "colour")))
    with either.reads() as reads:
        numbers = [each.number for found in reads.findings_short().values() for each in found.values()]
        assert reads.findings_at(numbers) == reads.findings()
