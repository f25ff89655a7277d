"""What a service reads at its start is not read again by the first page."""

from server.facts.judged import Word
from server.record.book_of_lines import Record
from server.work.warming import warm_beside
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry, new_register, person
from tests.record.test_keeping_judged import JOINT, judged, keep, verdict


def test_read_ahead_is_not_read_again(record: Record):
    """After warming, registers, findings in short, what waits and boots are there without reading one again."""
    append(record, new_register(person()), new_entry(1))
    keep(record, 1, judged(verdict(Word.OUTSIDE)))
    warm_beside(record).join()
    with record.counting() as asked, record.reads() as reads:
        assert "P1" in reads.registers().people
        assert [key for found in reads.findings_short().values() for key in found] == [f"{JOINT}|heat"]
        assert reads.boots_heard()["TAB-1"]["b1"].first_seq == 1  # type: ignore[index]
        assert reads.at_benches().shared(()) == []
        gathered = {name.partition("|")[0] for name in reads.registers().looked_up}
    assert gathered >= {"waiting", "left open"}
    assert not [each for each in asked if "GROUP BY" in each or "SELECT finding." in each or "frame IS NULL" in each]


def test_cold_is_read_once(record: Record):
    """Control: without warming the first question reads them."""
    append(record, new_entry(1))
    with record.counting() as asked, record.reads() as reads:
        reads.boots_heard()
    assert [each for each in asked if "GROUP BY" in each]
