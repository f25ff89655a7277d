"""Limits, walls and diameters of a procedure held against the qualification records it rests on."""

from collections.abc import Iterable, Iterator

from server.facts.limit_kinds import LIMIT_KINDS, LimitKind
from server.procedures.limit_checks import name_wrong, unit_wrong
from server.procedures.units import to_sealed
from server.procedures.written import WrittenLimit, WrittenProcedure, WrittenRange
from server.sheets.complaint import Complaint
from server.sheets.places import Path
from server.sheets.sheet import Sheet

_LENGTH = LimitKind("a length", "mm", "before the arc", "")
_SLACK = 1e-6


def support_wrong(written: WrittenProcedure, index: int, sheet: Sheet) -> Iterator[Complaint]:
    """What is wrong with one record taken alone: its names, units and date."""
    support, path = written.supports[index], ("supports", index)
    for name, span in support.ranges.items():
        at = (*path, "ranges", name)
        yield from [*name_wrong(at, name, sheet)] or [*_span_wrong(at, span, LIMIT_KINDS[name], sheet)]
    for field in ("thickness", "diameter"):
        span = getattr(support, field)
        if span:
            yield from _span_wrong((*path, field), span, _LENGTH, sheet)
    if support.dated > written.valid_from:
        expected = f"a day no later than valid_from = {written.valid_from}"
        yield sheet.complain((*path, "dated"), expected, "A record tested later supports only a later revision.")


def _span_wrong(path: Path, span: WrittenRange, kind: LimitKind, sheet: Sheet) -> Iterator[Complaint]:
    yield from unit_wrong(path, span, kind, sheet)
    if span.low is None and span.high is None:
        yield sheet.complain(path, "low, high or both", "Add an end, or take the range out.")


def material_unsupported(written: WrittenProcedure, sheet: Sheet) -> Iterator[Complaint]:
    """Walls and diameters outside what every record qualifies, or left open."""
    thickness, path = written.material.thickness, ("material", "thickness")
    if [*unit_wrong(path, thickness, _LENGTH, sheet)] or thickness.low is None or thickness.high is None:
        yield sheet.complain(path, "low and high in mm or in", 'Write { low = 0.7, high = 1.2, unit = "mm" }.')
        return
    for field in ("thickness", "diameter"):
        span = getattr(written.material, field)
        given = {s.id: getattr(s, field) for s in written.supports if getattr(s, field)}
        if span and given and not _held_by_any(span, given.values(), "mm"):
            yield _outside(("material", field), span, given, "mm", sheet)


def unsupported(written: WrittenProcedure, sheet: Sheet) -> Iterator[Complaint]:
    """Limits outside the range of every record that gives one for them."""
    for name, limits in written.limits.items():
        given = {s.id: s.ranges[name] for s in written.supports if name in s.ranges}
        for index, limit in enumerate(limits):
            if given and not limit.allowed and not _held_by_any(limit, given.values(), LIMIT_KINDS[name].unit):
                yield _outside(("limits", name, index), limit, given, LIMIT_KINDS[name].unit, sheet)


def _held_by_any(inner: WrittenLimit | WrittenRange, outer: Iterable[WrittenRange], sealed: str) -> bool:
    return any(_holds(span, inner, sealed) for span in outer)


def _holds(outer: WrittenRange, inner: WrittenLimit | WrittenRange, sealed: str) -> bool:
    low, high = _ends(inner, sealed)
    least, most = _ends(outer, sealed)
    low_held = least is None or (low is not None and low >= least - _SLACK)
    high_held = most is None or (high is not None and high <= most + _SLACK)
    return low_held and high_held


def _ends(span: WrittenLimit | WrittenRange, sealed: str) -> tuple[float | None, float | None]:
    low = None if span.low is None else to_sealed(span.low, span.unit, sealed)
    high = None if span.high is None else to_sealed(span.high, span.unit, sealed)
    return low, high


def _outside(
    path: Path, inner: WrittenLimit | WrittenRange, given: dict[str, WrittenRange], sealed: str, sheet: Sheet
) -> Complaint:
    spans = "; ".join(f"{record} qualifies {_words(span, sealed)}" for record, span in given.items())
    instead = "Draw the limit in, or test a wider range and add its record under [[supports]]."
    return sheet.complain(path, f"a range inside its supporting record ({spans})", instead, words=_words(inner, sealed))


def _words(span: WrittenLimit | WrittenRange, sealed: str) -> str:
    low, high = _ends(span, sealed)
    if low is None:
        return f"at most {high:g} {sealed}"
    return f"at least {low:g} {sealed}" if high is None else f"{low:g} to {high:g} {sealed}"
