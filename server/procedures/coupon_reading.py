"""Reads the ranges of a qualification record from its coupon, by the published tables the record names."""

from typing import Any

from pydantic import ValidationError

from server.facts.coupon_range import Span, WeldedCoupon, both
from server.facts.published_ranges import published_ranges

_FIELD = {"thickness": "thickness", "deposit": "thickness", "diameter": "diameter"}


def with_read_ranges(told: Any) -> Any:
    """Add the ranges `coupon` has by the tables in `read_by`, where none are written; raises ValueError in words."""
    if not isinstance(told, dict) or "read_by" not in told or "coupon" not in told:
        return told
    spans: dict[str, Span] = {}
    for name in told["read_by"]:
        table = published_ranges().get(name)
        if table is None:
            known = ", ".join(published_ranges())
            raise ValueError(f"read_by names {name!r}; tables brought along are {known}; write other ranges out")
        span = table.range_of(_coupon(told["coupon"]))
        if span is None:
            raise ValueError(f"{name} has no row for this coupon; give its {table.measures}_mm, or write the range out")
        spans[_FIELD[table.gives]] = both(spans.get(_FIELD[table.gives]), span)
    return {field: _written(*span) for field, span in spans.items()} | told


def _coupon(told: Any) -> WeldedCoupon:
    try:
        return WeldedCoupon.model_validate(told)
    except ValidationError:
        raise ValueError(
            "coupon is { thickness_mm, deposit_mm, diameter_mm, layers }, each a figure over 0; leave out the unknown"
        ) from None


def _written(low_mm: float, high_mm: float | None) -> dict[str, Any]:
    return {"low": low_mm, "unit": "mm"} | ({"high": high_mm} if high_mm is not None else {})
