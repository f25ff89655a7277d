"""What a qualification covers: the range it says, or the one its coupon has by the tables it names."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from server.facts.coupon_range import Measure, RangeTable, Span, both
from server.facts.people import Qualification


class Covered(NamedTuple):
    """Wall and outer diameter [mm]; none for any. `trouble` tells of a table that gives nothing: nothing is covered."""

    thickness_mm: Span | None
    diameter_mm: Span | None
    trouble: str = ""


def covered_by(qualification: Qualification, tables: Mapping[str, RangeTable]) -> Covered:
    """Give the range; what is written out stands above what a table would give."""
    found: dict[Measure, Span] = {}
    for name in qualification.read_by:
        table = tables.get(name)
        span = table.range_of(qualification.coupon) if table and qualification.coupon else None
        if table is None or span is None:
            why = "has no row for its coupon" if table else "is not on record"
            return Covered(None, None, f"the table {name} {why}")
        # A joint of one wall holds as much weld metal as the wall is thick, so a range of deposit is one of walls.
        given: Measure = "thickness" if table.gives == "deposit" else table.gives
        found[given] = both(found.get(given), span)
    return Covered(
        qualification.thickness_mm or found.get("thickness"), qualification.diameter_mm or found.get("diameter")
    )


def words_of(covered: Covered) -> str:
    """Say a range in a few words."""
    return covered.trouble or "; ".join(_words(covered))


def _words(covered: Covered) -> Iterator[str]:
    for name, span in (("wall", covered.thickness_mm), ("diameter", covered.diameter_mm)):
        if span:
            low, high = span
            yield f"{name} {low:g} mm and over" if high is None else f"{name} {low:g} to {high:g} mm"

