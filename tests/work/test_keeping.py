"""What keeps frames is read of the frames asked for and of no others."""

from server.facts.judged import Severity, Word
from server.record.book_of_lines import Record
from server.work.keeping import keeping
from server.work.short_matters import ShortMatters
from tests.record.test_keeping_judged import judged, keep, verdict

OTHER = "F-2/J1#1"


def told(record: Record) -> None:
    keep(record, 1, judged(verdict(Word.OUTSIDE), verdict(Word.MARGINAL, "colour")))
    note = verdict(Word.OUTSIDE, "seal", OTHER)._replace(severity=Severity.NOTE)
    keep(record, 1, judged(verdict(Word.OUTSIDE, subject=OTHER), note, subject=OTHER, frame="F-2"))


def test_all_frames_or_some(record: Record):
    """Of all frames both stops stand there, of one its own alone; what is marginal or a note keeps nothing."""
    told(record)
    with record.reads() as reads:
        found = {each.finding.key for each in keeping(reads, reads.registers())}
        own = [each.finding.key for each in keeping(reads, reads.registers(), {"F-2"})]
        none = keeping(reads, reads.registers(), frozenset())
    assert found == {"F-1/J1#1|heat", f"{OTHER}|heat"}
    assert own == [f"{OTHER}|heat"]
    assert none == []


def test_by_question(record: Record):
    """Asked by question, what keeps nothing is told too, and other questions are not."""
    told(record)
    with record.reads() as reads:
        found = [each.finding.key for each in ShortMatters(reads, reads.registers()).waiting_on({"seal", "colour"})]
    assert found == ["F-1/J1#1|colour", f"{OTHER}|seal"]
