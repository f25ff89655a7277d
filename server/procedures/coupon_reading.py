"""Reads the ranges of a qualification record from its coupon, by the published tables the record names."""

from typing import Any

from pydantic import ValidationError

from server.facts.coupon_range import NotReadable, WeldedCoupon, ranges_read
from server.facts.published_ranges import published_ranges


def with_read_ranges(told: Any) -> Any:
    """Add the ranges `coupon` has by the tables in `read_by`, where none are written; raises ValueError in words."""
    if not isinstance(told, dict) or "read_by" not in told or "coupon" not in told:
        return told
    try:
        read = ranges_read(_coupon(told["coupon"]), told["read_by"], published_ranges())
    except NotReadable as trouble:
        raise ValueError(_expected(trouble)) from None
    return {field: _written(*span) for field, span in read.items()} | told


def _expected(trouble: NotReadable) -> str:
    if trouble.table is None:
        known = ", ".join(published_ranges())
        return f"read_by names {trouble.name!r}; tables brought along are {known}; write other ranges out"
    measure = trouble.table.measures
    return f"{trouble.name} has no row for this coupon; give its {measure}_mm, or write the range out"


def _coupon(told: Any) -> WeldedCoupon:
    try:
        return WeldedCoupon.model_validate(told)
    except ValidationError:
        raise ValueError(
            "coupon is { thickness_mm, deposit_mm, diameter_mm, layers }, each a figure over 0; leave out the unknown"
        ) from None


def _written(low_mm: float, high_mm: float | None) -> dict[str, Any]:
    return {"low": low_mm, "unit": "mm"} | ({"high": high_mm} if high_mm is not None else {})
