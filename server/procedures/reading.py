"""A procedure's TOML text becomes the procedure, or every complaint about it with file, line and what to write."""

import hashlib
from functools import lru_cache

from server.facts.limit import Limit
from server.facts.limit_kinds import LIMIT_KINDS
from server.facts.procedure import Procedure, SupportingRecord
from server.procedures.checks import everything_wrong
from server.procedures.units import to_sealed
from server.procedures.written import WrittenLimit, WrittenProcedure, WrittenRange, WrittenSupport
from server.sheets.complaint import SheetRefused
from server.sheets.reading import read_as


# A text is read when it is checked, when it is released and by whoever opens the record: once is enough.
@lru_cache(128)
def read_procedure(text: str, file: str) -> Procedure:
    """Read one revision; raises SheetRefused with every complaint at once."""
    written, sheet = read_as(WrittenProcedure, text, file)
    wrong = everything_wrong(written, sheet)
    if wrong:
        raise SheetRefused(wrong)
    return _procedure(written, hashlib.sha256(text.encode()).hexdigest())


def _procedure(written: WrittenProcedure, sha256: str) -> Procedure:
    same = written.model_dump(include=set(Procedure.model_fields) & set(WrittenProcedure.model_fields) - _TURNED)
    material = written.material
    return Procedure(
        **same,
        base_metals=material.metals,
        thickness_mm=_closed(material.thickness),
        diameter_mm=_open_above(material.diameter),
        filler_classes=material.filler_classes,
        supports=tuple(map(_support, written.supports)),
        limits=tuple(_limit(name, limit, written) for name, limits in written.limits.items() for limit in limits),
        cautions=written.cautions,
        sha256=sha256,
    )


_TURNED = {"supports", "limits", "cautions"}


def _limit(name: str, written: WrittenLimit, around: WrittenProcedure) -> Limit:
    kind = LIMIT_KINDS[name]
    own = written.unit != kind.unit
    same = written.model_dump(include={"side", "zone", "runs", "line", "joint_kinds", "k", "source"})
    return Limit(
        **same,
        name=name,
        unit=kind.unit,
        low=_sealed(written.low, written.unit, kind.unit),
        high=_sealed(written.high, written.unit, kind.unit),
        allowed=tuple(_allowed(word, written.unit, kind.unit) for word in written.allowed),
        valid_from=written.valid_from or around.valid_from,
        beyond=written.beyond or kind.beyond,
        plan=written.plan,
        own_unit=written.unit if own else None,
        own_low=written.low if own else None,
        own_high=written.high if own else None,
    )


def _support(written: WrittenSupport) -> SupportingRecord:
    return SupportingRecord(
        id=written.id,
        dated=written.dated,
        standard=written.standard,
        ranges={name: _ends(span, LIMIT_KINDS[name].unit) for name, span in written.ranges.items()},
        thickness_mm=_closed(written.thickness) if written.thickness else None,
        diameter_mm=_open_above(written.diameter),
        variables=written.variables,
        changes_by=written.changes_by,
    )


def _sealed(value: float | None, unit: str, sealed: str) -> float | None:
    return None if value is None else to_sealed(value, unit, sealed)


def _allowed(word: str | float, unit: str, sealed: str) -> str:
    return word if isinstance(word, str) else f"{to_sealed(word, unit, sealed):g}"


def _ends(span: WrittenRange, sealed: str) -> tuple[float | None, float | None]:
    return _sealed(span.low, span.unit, sealed), _sealed(span.high, span.unit, sealed)


def _closed(span: WrittenRange) -> tuple[float, float]:
    low, high = _ends(span, "mm")
    if low is None or high is None:
        raise AssertionError("the checks let an open thickness through")
    return low, high


def _open_above(span: WrittenRange | None) -> tuple[float, float | None] | None:
    if span is None:
        return None
    low, high = _ends(span, "mm")
    return (low or 0.0, high)
