"""What a service reads at its start is not read again by the first page."""

from pathlib import Path
from unittest.mock import Mock

import pytest

from server.facts.judged import Word
from server.record.book_of_lines import Record
from server.work import what_checks
from server.work.warming import warm_beside
from server.work.what_checks import NONE_IN_ORDER, OfOne
from server.work.what_else import what_else
from server.work.what_things import Thing
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry, new_register, person
from tests.record.test_keeping_judged import JOINT, judged, keep, verdict
from tests.story.log import LINES, Tablet
from tests.work.small_shop import open_shop, send, weld_it_all


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
    assert gathered >= {"waiting", "left open", "newest first"}
    assert not [each for each in asked if "GROUP BY" in each or "SELECT finding." in each or "frame IS NULL" in each]


def test_cold_is_read_once(record: Record):
    """Control: without warming the first question reads them."""
    append(record, new_entry(1))
    with record.counting() as asked, record.reads() as reads:
        reads.boots_heard()
    assert [each for each in asked if "GROUP BY" in each]


def test_coupons_are_in_order_before_somebody_asks(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    """What stands beside a welder is put in order at the start; what stands beside a line, control, when asked for."""
    shop = open_shop(tmp_path)
    send(shop, *weld_it_all(Tablet("SLATE")))
    warm_beside(shop).join()
    in_order = Mock(return_value=OfOne(NONE_IN_ORDER, (0,), ()))
    monkeypatch.setattr(what_checks, "of_one", in_order)
    with shop.reads() as reads:
        what_else(reads, [Thing("welder", "WEL")])
        in_order.assert_not_called()
        what_else(reads, [Thing("line", LINES["purge_line"])])
        in_order.assert_called_once()
    shop.close()
