"""The limit cards a tablet holds, each line with what it asks to be read and how sure that is."""

from datetime import UTC, date, datetime
from typing import Any

from server.facts.equipment import Acceptance, Bench, Instrument, Uncertainty, Window
from server.facts.moment import show_moment
from server.facts.registers import Registers
from server.record.book_of_lines import Record
from server.work.at_hand import at_hand
from server.work.bench_cards import cards_ahead
from tests.pages.bench.fixtures import bench_record

__all__ = ["bench_record"]
BENCH = Bench(id="B9", title="a booth", torch_line="T", purge_line="P", machine="M")
NOON_MS = 1_768_046_400_000


def registers_of(record: Record) -> Registers:
    with record.reads() as reads:
        return reads.registers()


def cards_of(registers: Registers, on: date, bench: str = "B1") -> list[dict[str, Any]]:
    at_ms = round(datetime(on.year, on.month, on.day, 12, tzinfo=UTC).timestamp() * 1000)
    return cards_ahead(registers, on, at_hand(registers, registers.benches.get(bench, BENCH), at_ms))


def line(cards: list[dict[str, Any]], procedure: str, name: str) -> dict[str, Any]:
    card = next(card for card in cards if card["procedure"] == procedure)
    found: dict[str, Any] = next(line for line in card["lines"] if line["name"] == name)
    return found


def test_cards_in_force_and_those_to_come(bench_record: Record) -> None:
    """On a day before the newer revision both are held, with the day one ends and the other starts."""
    cards = cards_of(registers_of(bench_record), date(2025, 5, 1))
    held = [(c["revision"], c["valid_from"], c["valid_until"]) for c in cards if c["procedure"] == "T1"]
    assert held == [("B", "2024-09-02", "2025-05-04"), ("C", "2025-05-05", None)]


def test_each_line_says_what_is_read_and_how_sure_that_is(bench_record: Record) -> None:
    """Oxygen has its analyser's doubt, a setting the panel's, a look none; travel is read by nobody."""
    cards = cards_of(registers_of(bench_record), date(2026, 1, 10))
    told = {name: line(cards, "T1", name) for name in ("oxygen", "peak_current", "colour", "tungsten", "travel")}
    assert (told["oxygen"]["reading"], told["oxygen"]["uncertainty"]) == ("oxygen", "sqrt(1, 5 %)")
    assert told["colour"]["uncertainty"] == told["tungsten"]["uncertainty"] == "0"
    assert (told["travel"]["reading"], told["travel"]["uncertainty"]) == (None, "0")
    assert told["peak_current"]["uncertainty"] == "2.5 %"


def test_a_setting_without_an_instrument_has_the_doubt_on_file_that_day(bench_record: Record) -> None:
    """The panel's doubt is the shop's own figure as of the day; before there was one, it is not on file."""
    found = registers_of(bench_record)
    setting = Acceptance(
        id="S",
        name="setting_uncertainty",
        unit="%",
        value="4",  # type: ignore[arg-type]
        source="the shop's own",
        valid_from=date(2025, 1, 1),
    )
    with_figure = Registers(procedures=found.procedures, acceptance={"S": setting})
    without = Registers(procedures=found.procedures)
    assert line(cards_of(with_figure, date(2026, 1, 10)), "T1", "on_time")["uncertainty"] == "4 %"
    assert line(cards_of(without, date(2026, 1, 10)), "T1", "on_time")["uncertainty"] is None


def test_a_reading_without_an_instrument_on_file_is_never_sure(bench_record: Record) -> None:
    """With no analyser registered, oxygen has no doubt on file, so that a tablet can only say unknown."""
    without = Registers(procedures=registers_of(bench_record).procedures)
    assert line(cards_of(without, date(2026, 1, 10)), "T1", "oxygen")["uncertainty"] is None


def reader(name: str, quantity: str, share: str, bench: str | None = None) -> Instrument:
    reads = (Uncertainty(quantity=quantity, share=share, unit="L/min"),)  # type: ignore[arg-type]
    return Instrument(id=name, title=name, bench=bench, reads=reads)


def window(subject: str, bench: str, **told: str) -> Window:
    about = {"id": "W", "what": "instrument at bench", "subject": subject, "bench": bench}
    return Window.model_validate(about | told)


def test_the_card_carries_the_doubt_of_the_instrument_at_this_bench(bench_record: Record) -> None:
    """A coarse meter of another bench does not coarsen the card here: each bench has the doubt of its own."""
    both = reader("F", "torch_flow", "0.01", "B1"), reader("G", "torch_flow", "0.04", "B2")
    meters = {each.id: each for each in both}
    found = registers_of(bench_record)
    with_meters = Registers(procedures=found.procedures, benches=found.benches, instruments=meters)
    told = [line(cards_of(with_meters, date(2026, 1, 10), bench), "T1", "torch_flow") for bench in ("B1", "B2")]
    assert [each["uncertainty"] for each in told] == ["1 %", "4 %"]


def test_the_spare_brought_to_the_bench_is_the_one_in_use(bench_record: Record) -> None:
    """While the spare hangs here its doubt is on the card and the bench's own comes after it; before and after, not."""
    meters = {each.id: each for each in (reader("A", "torch_flow", "0.01", "B9"), reader("S", "torch_flow", "0.05"))}
    hung = window("S", "B9", since=show_moment(NOON_MS), until=show_moment(NOON_MS + 1000))
    found = Registers(procedures=registers_of(bench_record).procedures, instruments=meters, windows={"W": hung})
    told = [at_hand(found, BENCH, NOON_MS + after) for after in (-1, 0, 1000)]
    assert [[each.id for each in hand.instruments] for hand in told] == [["A", "S"], ["S", "A"], ["A", "S"]]
    lines = [line(cards_ahead(found, date(2026, 1, 10), hand), "T1", "torch_flow") for hand in told]
    assert [each["uncertainty"] for each in lines] == ["1 %", "5 %", "1 %"]


def test_an_instrument_lent_to_another_bench_is_not_here() -> None:
    """The own meter, hung at the neighbour's, is not named here."""
    away = window("A", "B8", since=show_moment(NOON_MS))
    found = Registers(instruments={"A": reader("A", "torch_flow", "0.01", "B9")}, windows={"W": away})
    assert at_hand(found, BENCH, NOON_MS).instruments == ()


def test_a_count_has_the_doubt_of_the_machine_that_counts(bench_record: Record) -> None:
    """Mean current is counted by the bench's power source, so its doubt stands there and not the clamp meter's."""
    found = registers_of(bench_record)
    assert line(cards_of(found, date(2026, 1, 10)), "T1", "mean_current")["uncertainty"] == "2.5 %"
    clamp = {"CC-1": found.instruments["CC-1"]}
    without = Registers(procedures=found.procedures, benches=found.benches, instruments=clamp)
    assert line(cards_of(without, date(2026, 1, 10)), "T1", "mean_current")["uncertainty"] is None
