"""The limit cards a tablet holds, each line with what it asks to be read and how sure that is."""

from datetime import date
from typing import Any

from server.facts.equipment import Acceptance
from server.facts.registers import Registers
from server.record.book_of_lines import Record
from server.work.bench_cards import cards_ahead
from tests.pages.bench.fixtures import bench_record

__all__ = ["bench_record"]


def registers_of(record: Record) -> Registers:
    with record.reads() as reads:
        return reads.registers()


def line(cards: list[dict[str, Any]], procedure: str, name: str) -> dict[str, Any]:
    card = next(card for card in cards if card["procedure"] == procedure)
    found: dict[str, Any] = next(line for line in card["lines"] if line["name"] == name)
    return found


def test_cards_in_force_and_those_to_come(bench_record: Record) -> None:
    """On a day before the newer revision both are held, with the day one ends and the other starts."""
    cards = cards_ahead(registers_of(bench_record), date(2025, 5, 1))
    held = [(c["revision"], c["valid_from"], c["valid_until"]) for c in cards if c["procedure"] == "T1"]
    assert held == [("B", "2024-09-02", "2025-05-04"), ("C", "2025-05-05", None)]


def test_each_line_says_what_is_read_and_how_sure_that_is(bench_record: Record) -> None:
    """Oxygen has its analyser's doubt, a setting the panel's, a look none; travel is read by nobody."""
    cards = cards_ahead(registers_of(bench_record), date(2026, 1, 10))
    told = {name: line(cards, "T1", name) for name in ("oxygen", "peak_current", "colour", "tungsten", "travel")}
    assert (told["oxygen"]["reading"], told["oxygen"]["uncertainty"]) == ("oxygen", "sqrt(1, 5 %)")
    assert told["colour"]["uncertainty"] == told["tungsten"]["uncertainty"] == "0"
    assert (told["travel"]["reading"], told["travel"]["uncertainty"]) == (None, "0")
    assert told["peak_current"]["uncertainty"] == "2.5 %"


def test_a_setting_without_an_instrument_has_the_doubt_on_file_that_day(bench_record: Record) -> None:
    """The panel's doubt is the shop's own figure as of the day; before there was one, it is not on file."""
    found = registers_of(bench_record)
    setting = Acceptance(
        id="S", name="setting_uncertainty", unit="%", value="4", source="the shop's own", valid_from=date(2025, 1, 1)  # type: ignore[arg-type]
    )
    with_figure = Registers(procedures=found.procedures, acceptance={"S": setting})
    without = Registers(procedures=found.procedures)
    assert line(cards_ahead(with_figure, date(2026, 1, 10)), "T1", "on_time")["uncertainty"] == "4 %"
    assert line(cards_ahead(without, date(2026, 1, 10)), "T1", "on_time")["uncertainty"] is None


def test_a_reading_without_an_instrument_on_file_is_never_sure(bench_record: Record) -> None:
    """With no analyser registered, oxygen has no doubt on file, so that a tablet can only say unknown."""
    without = Registers(procedures=registers_of(bench_record).procedures)
    assert line(cards_ahead(without, date(2026, 1, 10)), "T1", "oxygen")["uncertainty"] is None
