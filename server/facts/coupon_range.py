"""What a welded coupon qualifies for: the rows of a code's table, from one measure of the coupon to a range [mm]."""

from collections.abc import Iterable, Mapping
from typing import Literal

from pydantic import Field, model_validator

from server.facts.noun import Noun

Measure = Literal["thickness", "deposit", "diameter"]
Span = tuple[float, float | None]
"""A range [mm]; without an upper end it is open."""


def _both(one: Span | None, other: Span) -> Span:
    """Give what lies in both ranges."""
    if one is None:
        return other
    highs = [each for each in (one[1], other[1]) if each is not None]
    return max(one[0], other[0]), min(highs) if highs else None


class WeldedCoupon(Noun):
    """The coupon a record rests on: wall, thickness of deposited metal and outer diameter [mm], layers of weld."""

    thickness_mm: float | None = Field(default=None, gt=0)
    deposit_mm: float | None = Field(default=None, gt=0)
    diameter_mm: float | None = Field(default=None, gt=0)
    layers: int | None = Field(default=None, ge=1)

    def measure(self, which: Measure) -> float | None:
        """Give one measure [mm]; none when nobody wrote it down."""
        return {"thickness": self.thickness_mm, "deposit": self.deposit_mm, "diameter": self.diameter_mm}[which]


class RangeRow(Noun):
    """One row: which coupons it is for, and the ends it gives, in mm or as multiples; an end not given is open."""

    over_mm: float | None = None
    from_mm: float | None = None
    upto_mm: float | None = None
    below_mm: float | None = None
    deposit_from_mm: float | None = None
    deposit_below_mm: float | None = None
    layers_from: int | None = None
    low_mm: float | None = None
    low_times: float | None = None
    high_mm: float | None = None
    high_times: float | None = None
    high_times_deposit: float | None = None

    @model_validator(mode="after")
    def _one_end_each(self) -> "RangeRow":
        if self.low_mm is not None and self.low_times is not None:
            raise ValueError("low_mm and low_times are both given; write one of them")
        if sum(each is not None for each in (self.high_mm, self.high_times, self.high_times_deposit)) > 1:
            raise ValueError("write one of high_mm, high_times and high_times_deposit")
        return self

    def is_for(self, measured_mm: float, coupon: WeldedCoupon) -> bool:
        """Tell whether this row is the one for a coupon; what it asks of a coupon and nobody told is not met."""
        deposit_mm = coupon.deposit_mm
        return (
            (self.over_mm is None or measured_mm > self.over_mm)
            and (self.from_mm is None or measured_mm >= self.from_mm)
            and (self.upto_mm is None or measured_mm <= self.upto_mm)
            and (self.below_mm is None or measured_mm < self.below_mm)
            and (self.deposit_from_mm is None or (deposit_mm is not None and deposit_mm >= self.deposit_from_mm))
            and (self.deposit_below_mm is None or (deposit_mm is not None and deposit_mm < self.deposit_below_mm))
            and (self.layers_from is None or (coupon.layers is not None and coupon.layers >= self.layers_from))
        )

    def ends(self, measured_mm: float, coupon: WeldedCoupon) -> Span | None:
        """Give low and high [mm]; none when the deposit it multiplies was not told."""
        low = measured_mm * self.low_times if self.low_times is not None else self.low_mm or 0.0
        if self.high_times_deposit is not None:
            return (low, coupon.deposit_mm * self.high_times_deposit) if coupon.deposit_mm else None
        return low, measured_mm * self.high_times if self.high_times is not None else self.high_mm


class RangeTable(Noun):
    """A code's table with its edition: by one measure of the coupon, the range of a joint's measure it qualifies.

    Typed in by the shop from its own copy, or one of the few tables the program brings; the shop's own stands first.
    """

    kind: Literal["range table"] = "range table"
    id: str = Field(description="the name the records give in `read_by`, with code and clause")
    edition: str
    measures: Measure = Field(description="the measure of the coupon the rows go by")
    gives: Measure = Field(description="the measure of a joint the range is for; deposit is held against its wall")
    rows: tuple[RangeRow, ...] = Field(min_length=1)

    def range_of(self, coupon: WeldedCoupon) -> Span | None:
        """Give the range [mm] a coupon qualifies; none when no row fits or a measure is missing."""
        measured_mm = coupon.measure(self.measures)
        if measured_mm is None:
            return None
        row = next((each for each in self.rows if each.is_for(measured_mm, coupon)), None)
        return row.ends(measured_mm, coupon) if row else None


class NotReadable(LookupError):
    """A table that gives no range for a coupon; `table` is none where nobody has typed it in."""

    def __init__(self, name: str, table: RangeTable | None) -> None:
        super().__init__(f"the table {name} {'has no row for its coupon' if table else 'is not on record'}")
        self.name, self.table = name, table


def ranges_read(
    coupon: WeldedCoupon, names: Iterable[str], tables: Mapping[str, RangeTable]
) -> dict[Literal["thickness", "diameter"], Span]:
    """Give wall and diameter as far as the tables named tell them, each narrowed by all; raises `NotReadable`.

    A joint of one wall holds as much weld metal as the wall is thick, so a range of deposit is one of walls.
    """
    found: dict[Literal["thickness", "diameter"], Span] = {}
    for name in names:
        table = tables.get(name)
        span = table.range_of(coupon) if table else None
        if table is None or span is None:
            raise NotReadable(name, table)
        given: Literal["thickness", "diameter"] = "diameter" if table.gives == "diameter" else "thickness"
        found[given] = _both(found.get(given), span)
    return found
