"""Cylinders on lines, sleeves at the bench, stock and instruments, as a tablet is told them."""

import json
import random
from datetime import date

from server.facts.equipment import Bench, Instrument, Uncertainty, Window
from server.facts.materials import FillerLot, FillLot, RodSleeve
from server.facts.registers import Registers
from server.record.at_benches import AtBenches, with_rows
from server.work.at_hand import MOST_SHARED, at_hand
from server.work.bench_log import entries_told
from server.work.bench_supplies import instruments_told, lines_told, sleeve_told, sleeves_told, stock_found, stock_told

BENCH = Bench(id="B", title="a booth", torch_line="T", purge_line="P", trailing_line="T")


def changed(line: str, on: str, at: str) -> dict[str, object]:
    return {"kind": "cylinder", "id": f"{line}{on}", "line": line, "on": on, "happened": at}


def sleeve(name: str, act: str, at: str, bench: str | None = "B") -> dict[str, object]:
    return {"kind": "sleeve", "id": f"{name}{act}", "sleeve": name, "act": act, "bench": bench, "happened": at}


def shared(entries: list[dict[str, object]]) -> list[dict[str, object]]:
    """What a sheet is made from, of entries as they arrived."""
    return known_of(entries).shared(["T", "P"])


def known_of(entries: list[dict[str, object]]) -> AtBenches:
    """What is known of lines and sleeves after entries as they arrived."""
    rows = [(position, json.dumps(each).encode()) for position, each in enumerate(entries, 1)]
    return with_rows(AtBenches(), rows)


def test_a_line_carries_the_cylinder_last_put_on() -> None:
    """Whatever order the entries arrived in, the one that happened last counts; a shared line stands once."""
    told = shared([changed("T", "second", "2026-01-02"), changed("T", "first", "2026-01-01")])
    assert [(line["line"], line["use"], line["cylinder"]) for line in lines_told(BENCH, told)] == [
        ("T", "torch", "second"), ("P", "purge", None),
    ]  # fmt: skip


def test_a_withdrawn_change_never_happened() -> None:
    """A cylinder change taken back leaves the one before it on the line."""
    mend = {"kind": "correction", "id": "m", "of": "Tsecond", "withdraw": True, "happened": "2026-01-03"}
    told = shared([changed("T", "first", "2026-01-01"), changed("T", "second", "2026-01-02"), mend])
    assert lines_told(BENCH, told)[0]["cylinder"] == "first"


def test_open_sleeves_are_those_of_this_bench_not_closed_since() -> None:
    """Opened here and not closed: open. Closed, or opened elsewhere: not."""
    told = shared(
        [
            sleeve("A", "opened", "1"),
            sleeve("B", "opened", "2"),
            sleeve("A", "closed", "3"),
            sleeve("C", "opened", "4", bench="other"),
            sleeve("B", "checked", "5"),
        ]
    )
    assert [each["sleeve"] for each in sleeves_told(Registers(), BENCH, told)] == ["B"]


def test_a_bench_is_told_the_acts_on_its_own_sleeves() -> None:
    """Of all that is open in the shop only what was opened here, or nobody said where, and the same as read off all."""
    for seed in range(30):
        dice, benches = random.Random(seed), (BENCH.id, "other", None)
        told = [sleeve(dice.choice("ABCDEF"), dice.choice(("opened", "opened", "closed", "checked")), f"{at:03}",
                       dice.choice(benches)) | {"id": f"E{at}"} for at in dice.sample(range(200), 40)]  # fmt: skip
        known = known_of(told)
        here, every = known.shared("TP", BENCH.id), known.shared("TP")
        assert sleeves_told(Registers(), BENCH, here) == sleeves_told(Registers(), BENCH, every), seed
        elsewhere = {act["sleeve"] for act in every} - {act["sleeve"] for act in here}
        assert not {each["sleeve"] for each in sleeves_told(Registers(), BENCH, every)} & elsewhere


def test_a_sleeve_nobody_received_says_so() -> None:
    """A sleeve without a label on file is shown, with its class not known, and never guessed."""
    assert sleeve_told(Registers(), "X")["filler_class"] == "class not known"


def test_only_released_stock_may_be_taken() -> None:
    """Sleeves of an unreleased lot and cylinders of an unreleased fill lot are not offered."""
    registers = Registers(
        filler_lots={
            "L1": FillerLot(id="L1", filler_class="ERTi-9", released=date(2026, 1, 1)),
            "L2": FillerLot(id="L2", filler_class="ERTi-9"),
        },
        sleeves={
            name: RodSleeve(id=name, lot=lot, filler_class="ERTi-9", rod_mm="0.9")  # type: ignore[arg-type]
            for name, lot in (("S1", "L1"), ("S2", "L2"))
        },
        fill_lots={
            "G1": FillLot(id="G1", cylinders=("C1", "C2"), released=date(2026, 1, 1)),
            "G2": FillLot(id="G2", cylinders=("C3",)),
        },
    )
    stock = stock_told(registers, AtBenches())
    assert [each["sleeve"] for each in stock["sleeves"]] == ["S1"]
    assert [each["cylinder"] for each in stock["cylinders"]] == ["C1", "C2"]


def test_what_was_taken_before_is_offered_last_and_says_so() -> None:
    """On a line now, on one before, refilled since, taken back; a sleeve open elsewhere, closed again, never opened."""
    released = date(2026, 1, 1)
    registers = Registers(
        filler_lots={"L": FillerLot(id="L", filler_class="ERTi-9", released=released)},
        sleeves={
            name: RodSleeve(id=name, lot="L", filler_class="ERTi-9", rod_mm="0.9")  # type: ignore[arg-type]
            for name in ("S1", "S2", "S3")
        },
        fill_lots={
            "old": FillLot(id="old", cylinders=("refilled",), released=released),
            "new": FillLot(id="new", cylinders=("hangs", "empty", "mistaken", "refilled"), released=date(2026, 2, 1)),
        },
    )
    lot = {"fill_lot": "new"}
    entries = [
        changed("T", "refilled", "1") | {"fill_lot": "old"}, changed("T", "empty", "2") | lot,
        changed("T", "mistaken", "3") | lot, changed("other", "hangs", "4") | lot,
        {"kind": "correction", "id": "m", "of": "Tmistaken", "withdraw": True, "happened": "5"},
        sleeve("S1", "opened", "1", bench="other"), sleeve("S2", "opened", "2"), sleeve("S2", "closed", "3"),
    ]  # fmt: skip
    stock = stock_told(registers, known_of(entries))
    assert [(each["cylinder"], each["fill_lot"], each.get("on"), each.get("used")) for each in stock["cylinders"]] == [
        ("mistaken", "new", None, None), ("refilled", "new", None, None), ("refilled", "old", None, True),
        ("hangs", "new", "other", True), ("empty", "new", "T", True),
    ]  # fmt: skip
    assert [(each["sleeve"], each.get("open_at"), each.get("used")) for each in stock["sleeves"]] == [
        ("S3", None, None), ("S2", None, True), ("S1", "other", True),
    ]  # fmt: skip


def test_an_old_sleeve_nobody_took_is_offered_and_any_is_found() -> None:
    """Of sixty sleeves the ten oldest were never opened: they come first; one not offered is found by its number."""
    names = [f"S{number:02}" for number in range(60)]
    registers = Registers(
        filler_lots={"L": FillerLot(id="L", filler_class="ERTi-9", released=date(2026, 1, 1))},
        sleeves={name: RodSleeve(id=name, lot="L", filler_class="ERTi-9", rod_mm="0.9") for name in names},  # type: ignore[arg-type]
    )
    known = known_of([sleeve(name, act, act[0]) for name in names[10:] for act in ("opened", "xclosed")])
    offered = [each["sleeve"] for each in stock_told(registers, known)["sleeves"]]
    assert offered[:10] == names[9::-1]
    assert (len(offered), "S12" in offered) == (40, False)
    found = stock_found(registers, known, "s12")
    assert ([each["sleeve"] for each in found["sleeves"]], found["more"]) == (["S12"], False)
    assert stock_found(registers, known, "S")["more"] is True
    assert stock_found(registers, known, "no such")["sleeves"] == []


def test_the_benchs_own_instrument_comes_before_a_shared_one() -> None:
    """An analyser of another bench is not offered; the own one is named first; one that reads nothing is left out."""
    reads = (Uncertainty(quantity="oxygen", fixed="1", unit="ppm"),)  # type: ignore[arg-type]
    instruments = {
        "A": Instrument(id="A", title="spare", reads=reads),
        "B": Instrument(id="B", title="ours", bench="B", reads=reads),
        "C": Instrument(id="C", title="theirs", bench="other", reads=reads),
        "D": Instrument(id="D", title="scope"),
    }
    hand = at_hand(Registers(instruments=instruments), BENCH, 0)
    assert [each["id"] for each in instruments_told(hand)] == ["B", "A"]


LENT = {"id": "W", "what": "instrument at bench", "subject": "S001", "bench": "other", "since": "2026-01-05T08:00:00Z"}
LONG_AFTER_MS = 1_900_000_000_000


def test_of_many_shared_instruments_only_the_first_for_each_quantity_are_told() -> None:
    """However many belong to no bench: the first by label stay, the bench's own stays first, what is lent is passed."""
    many = {f"S{n:03}": reader(f"S{n:03}", "oxygen") for n in range(200)} | {"V": reader("V", "volts")}
    registers = Registers(
        instruments=many | {"Z": reader("Z", "oxygen").model_copy(update={"bench": "B"})},
        windows={"W": Window.model_validate(LENT)},
    )
    told = [each["id"] for each in instruments_told(at_hand(registers, BENCH, LONG_AFTER_MS))]
    first = [f"S{n:03}" for n in range(MOST_SHARED + 1) if n != 1]
    assert told == ["Z", *first, "V"]
    lent = at_hand(registers, BENCH.model_copy(update={"id": "other"}), LONG_AFTER_MS)
    assert lent.instruments[0].id == "S001"


def reader(name: str, quantity: str) -> Instrument:
    return Instrument(id=name, title=name, reads=(Uncertainty(quantity=quantity, unit="ppm"),))


def test_an_entry_is_told_without_what_only_the_record_needs() -> None:
    """Counter, start and card stay out; what the tablet reckons with stays in."""
    told = entries_told([b'{"boot":"x","card":"y","id":"1","joint":"J","kind":"tack","mono_ms":5,"seq":1}'])
    assert told == [{"id": "1", "joint": "J", "kind": "tack", "seq": 1}]
