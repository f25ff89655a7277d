"""What a service reads at its start is not read again by the first page."""

from server.record.book_of_lines import Record
from server.work.warming import warm_beside
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry, new_register, person


def test_read_ahead_is_not_read_again(record: Record):
    """After warming, registers, findings in short and boots are given without reading a line, a finding or a boot."""
    append(record, new_register(person()), new_entry(1))
    warm_beside(record).join()
    with record.counting() as asked, record.reads() as reads:
        assert "P1" in reads.registers().people
        assert reads.findings_short() == {}
        assert reads.boots_heard()["TAB-1"]["b1"].first_seq == 1  # type: ignore[index]
    assert not [each for each in asked if "GROUP BY" in each or "finding.verdict" in each]


def test_cold_is_read_once(record: Record):
    """Control: without warming the first question reads them."""
    append(record, new_entry(1))
    with record.counting() as asked, record.reads() as reads:
        reads.boots_heard()
    assert [each for each in asked if "GROUP BY" in each]
