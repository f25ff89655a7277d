"""What can be wrong with one limit of a written procedure: its name, unit, ends, place and start."""

import difflib
from collections.abc import Iterator

from server.facts.limit_kinds import LIMIT_KINDS, LimitKind
from server.facts.quantities import QUANTITIES
from server.procedures.units import WrongUnit, to_sealed
from server.procedures.written import WrittenLimit, WrittenProcedure, WrittenRange
from server.sheets.complaint import Complaint
from server.sheets.places import Path
from server.sheets.sheet import Sheet

GRADES = (0.0, 8.0)


def limit_wrong(written: WrittenProcedure, name: str, index: int, sheet: Sheet) -> Iterator[Complaint]:
    """Everything wrong with one limit; with an unknown name or a wrong unit nothing else can be told."""
    path, limit = ("limits", name, index), written.limits[name][index]
    first = [*name_wrong(path[:2], name, sheet)] or [*unit_wrong(path, limit, LIMIT_KINDS[name], sheet)]
    if first:
        yield from first
        return
    yield from _ends_wrong(path, limit, LIMIT_KINDS[name], sheet)
    yield from _start_wrong(path, limit, written, sheet)
    yield from _place_wrong(path, name, limit, written, sheet)


def name_wrong(path: Path, name: str, sheet: Sheet) -> Iterator[Complaint]:
    """A limit that no procedure of this house knows."""
    if name not in LIMIT_KINDS:
        near = difflib.get_close_matches(name, LIMIT_KINDS, n=1)
        instead = f"Write {near[0]} if you meant that." if near else "Take the line out."
        yield sheet.complain(path, f"a limit this house knows: {', '.join(LIMIT_KINDS)}", instead, value=name)


def unit_wrong(path: Path, limit: WrittenLimit | WrittenRange, kind: LimitKind, sheet: Sheet) -> Iterator[Complaint]:
    """A unit that does not measure the thing, or none where one is needed."""
    words_only = isinstance(limit, WrittenLimit) and limit.low is None and limit.high is None
    if words_only and not limit.unit and all(isinstance(word, str) for word in getattr(limit, "allowed", ())):
        return
    try:
        to_sealed(1.0, limit.unit, kind.unit)
    except WrongUnit as wrong:
        expected = f"a unit of {kind.words}: {', '.join(wrong.usual)}" if kind.unit else "no unit"
        instead = f'Write unit = "{kind.unit}" with the values in {kind.unit}.' if kind.unit else "Take the unit out."
        yield sheet.complain((*path, "unit"), expected, instead, value=limit.unit or None)


def _ends_wrong(path: Path, limit: WrittenLimit, kind: LimitKind, sheet: Sheet) -> Iterator[Complaint]:
    if limit.low is None and limit.high is None and not limit.allowed:
        wanted = "low, high or both" if kind.unit else "what is allowed"
        yield sheet.complain(path, wanted, "Add it, or take the limit out.")
    if not kind.unit and not limit.allowed and (limit.low is not None or limit.high is not None):
        yield sheet.complain(path, "words, not a range", 'Write allowed = ["..."].')
    if limit.low is not None and limit.high is not None and limit.low >= limit.high:
        yield sheet.complain((*path, "low"), f"less than high = {limit.high:g}", "Change the ends about.")
    yield from _impossible(path, limit, kind, sheet)


def _impossible(path: Path, limit: WrittenLimit, kind: LimitKind, sheet: Sheet) -> Iterator[Complaint]:
    least, most = _possible(kind)
    for end in ("low", "high"):
        value = getattr(limit, end)
        if value is not None and not least <= to_sealed(value, limit.unit, kind.unit) <= most:
            expected = f"{kind.words} between {least:g} and {most:g} {kind.unit}"
            yield sheet.complain((*path, end), expected, "Mend the value or its unit.")


def _possible(kind: LimitKind) -> tuple[float, float]:
    if kind.unit == "grade":
        return GRADES
    if kind.reading:
        quantity = QUANTITIES[kind.reading]
        return quantity.least, quantity.most
    return (0.0, float("inf")) if kind.unit != "°C" else (-273.15, float("inf"))


def _start_wrong(path: Path, limit: WrittenLimit, written: WrittenProcedure, sheet: Sheet) -> Iterator[Complaint]:
    if limit.valid_from and limit.valid_from < written.valid_from:
        expected = f"{written.valid_from} or later: no limit starts before its revision"
        yield sheet.complain((*path, "valid_from"), expected, "Take valid_from out, or mend it.")


def _place_wrong(
    path: Path, name: str, limit: WrittenLimit, written: WrittenProcedure, sheet: Sheet
) -> Iterator[Complaint]:
    if name == "colour" and not limit.side:
        yield sheet.complain((*path, "side"), "the side looked at", 'Add side = "outside" or side = "inside".')
    if name == "colour" and not limit.zone:
        yield sheet.complain((*path, "zone"), "the zone looked at", 'Add zone = "bead", "edge" or "tint".')
    if name == "heat_input" and limit.k is None:
        yield sheet.complain((*path, "k"), "the thermal efficiency it is reckoned with", "Add k = 0.6 or k = 1.")
    known = {written.joint_kind, *written.repairs}
    for kind in set(limit.joint_kinds) - known:
        expected = f"kinds of joint of this procedure: {', '.join(sorted(known))}"
        yield sheet.complain((*path, "joint_kinds"), expected, "Mend the name, or add it to repairs.", value=kind)
