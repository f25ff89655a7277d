"""Gas lines with their cylinders, sleeves open at the bench, what is in stock, and the instruments to hand."""

from collections.abc import Callable, Iterable
from itertools import islice
from typing import Any

from server.facts.equipment import Bench, Instrument
from server.facts.looked_up import looked_up
from server.facts.materials import RodSleeve
from server.facts.registers import Registers
from server.record.at_benches import AtBenches
from server.work.at_hand import AtHand

_OFFERED = 40
_LOOKED_THROUGH = 1000


def lines_told(bench: Bench, shared: Iterable[dict[str, Any]]) -> list[dict[str, Any]]:
    """Give the bench's gas lines, each once, with the cylinder last put on it."""
    uses = (("torch", bench.torch_line), ("purge", bench.purge_line), ("trailing", bench.trailing_line))
    lines: dict[str, dict[str, Any]] = {}
    for use, line in uses:
        if line is not None and line not in lines:
            lines[line] = {"line": line, "use": use, "cylinder": None, "fill_lot": None, "since": None}
    for entry in shared:
        if entry["kind"] == "cylinder" and (told := lines.get(entry["line"])):
            told |= {"cylinder": entry.get("on"), "fill_lot": entry.get("fill_lot"), "since": entry["happened"]}
    return list(lines.values())


def sleeves_told(registers: Registers, bench: Bench, shared: Iterable[dict[str, Any]]) -> list[dict[str, Any]]:
    """Give the sleeves that were opened at this bench and not closed, in the order they were opened."""
    is_open: dict[str, str] = {}
    for entry in shared:
        if entry["kind"] != "sleeve":
            continue
        if entry["act"] == "closed":
            is_open.pop(entry["sleeve"], None)
        elif entry["act"] == "opened" and entry.get("bench") in (None, bench.id):
            is_open[entry["sleeve"]] = entry["happened"]
    return [sleeve_told(registers, name) | {"opened": opened} for name, opened in is_open.items()]


def sleeve_told(registers: Registers, name: str) -> dict[str, Any]:
    """Give what a sleeve's label says, or that nobody has read it yet."""
    label = registers.sleeves.get(name)
    if label is None:
        return {"sleeve": name, "lot": None, "filler_class": "class not known", "rod_mm": "?"}
    return {"sleeve": name, "lot": label.lot, "filler_class": label.filler_class, "rod_mm": f"{label.rod_mm:g}"}


def stock_told(registers: Registers, known: AtBenches) -> dict[str, Any]:
    """Give the sleeves and cylinders the bench may take, released ones only: what was never taken first, newest first.

    What was taken before says so, and what hangs on a line or is open says where: one that is empty is not taken twice.
    Only so many are offered; any other is found by its number.
    """
    stock, with_place = _stock(registers), _places(known)
    newest = {kind: islice(told, _LOOKED_THROUGH) for kind, told in stock.items()}
    return {kind: _offered(with_place[kind](each) for each in told) for kind, told in newest.items()}


def stock_found(registers: Registers, known: AtBenches, part: str) -> dict[str, Any]:
    """Give the released sleeves and cylinders with this part in their number, the shortest number first."""
    wanted, with_place = part.casefold(), _places(known)
    found = {
        kind: sorted((each for each in told if wanted in _number(each).casefold()), key=lambda each: len(_number(each)))
        for kind, told in _stock(registers).items()
    }
    shown = {kind: [with_place[kind](each) for each in told[:_OFFERED]] for kind, told in found.items()}
    return shown | {"more": any(len(told) > _OFFERED for told in found.values())}


def _offered(newest: Iterable[dict[str, Any]]) -> list[dict[str, Any]]:
    never: list[dict[str, Any]] = []
    taken: list[dict[str, Any]] = []
    for told in newest:
        (taken if _how_taken(told) else never).append(told)
        if len(never) == _OFFERED:
            break
    return [*never, *sorted(taken[: _OFFERED - len(never)], key=_how_taken)]


def _places(known: AtBenches) -> dict[str, Callable[[dict[str, Any]], dict[str, Any]]]:
    """Give for each kind what adds to a label where it is now and whether it was taken before."""
    lines, open_at = known.line_of, known.open_at
    return {
        "sleeves": lambda each: each
        | _taken("open_at", open_at.get(each["sleeve"]), known.taken_before(each["sleeve"])),
        "cylinders": lambda each: each
        | _taken("on", lines.get(each["cylinder"]), known.taken_before(each["cylinder"], each["fill_lot"])),
    }


def _number(told: dict[str, Any]) -> str:
    return str(told.get("sleeve") or told["cylinder"])


def _taken(word: str, place: str | None, used: bool) -> dict[str, Any]:
    return ({word: place} if place else {}) | ({"used": True} if used else {})


def _how_taken(told: dict[str, Any]) -> int:
    return 2 if "on" in told or "open_at" in told else 1 if "used" in told else 0


def _stock(registers: Registers) -> dict[str, list[dict[str, Any]]]:
    """Give all that is released, newest first."""

    def read() -> dict[str, list[dict[str, Any]]]:
        sleeves = [each for each in registers.sleeves.values() if _is_released(registers, each)]
        sleeves.sort(key=lambda each: (str(each.received), each.id), reverse=True)
        lots = sorted((lot for lot in registers.fill_lots.values() if lot.released), key=lambda lot: str(lot.released))
        cylinders = [{"cylinder": name, "fill_lot": lot.id} for lot in reversed(lots) for name in lot.cylinders]
        return {"sleeves": [sleeve_told(registers, each.id) for each in sleeves], "cylinders": cylinders}

    return looked_up(registers, "stock", (registers.sleeves, registers.filler_lots, registers.fill_lots), read)


def instruments_told(hand: AtHand) -> list[dict[str, Any]]:
    """Give the instruments that may read at a bench, the one a tablet names for a quantity first."""
    return [_instrument_told(each) for each in hand.instruments]


def _instrument_told(instrument: Instrument) -> dict[str, Any]:
    return {"id": instrument.id, "title": instrument.title, "reads": [each.quantity for each in instrument.reads]}


def _is_released(registers: Registers, sleeve: RodSleeve) -> bool:
    lot = registers.filler_lots.get(sleeve.lot)
    return lot is not None and lot.released is not None
