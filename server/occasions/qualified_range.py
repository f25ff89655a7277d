"""What a qualification covers: the range it says, or the one its coupon has by the tables it names."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from server.facts.coupon_range import NotReadable, RangeTable, Span, ranges_read
from server.facts.people import Qualification


class Covered(NamedTuple):
    """Wall and outer diameter [mm]; none for any. `trouble` tells of a table that gives nothing: nothing is covered."""

    thickness_mm: Span | None
    diameter_mm: Span | None
    trouble: str = ""


def covered_by(qualification: Qualification, tables: Mapping[str, RangeTable]) -> Covered:
    """Give the range; what is written out stands above what a table would give."""
    try:
        read = ranges_read(qualification.coupon, qualification.read_by, tables) if qualification.coupon else {}
    except NotReadable as trouble:
        return Covered(None, None, str(trouble))
    of = qualification
    return Covered(of.thickness_mm or read.get("thickness"), of.diameter_mm or read.get("diameter"))


def words_of(covered: Covered) -> str:
    """Say a range in a few words."""
    return covered.trouble or "; ".join(_words(covered))


def _words(covered: Covered) -> Iterator[str]:
    for name, span in (("wall", covered.thickness_mm), ("diameter", covered.diameter_mm)):
        if span:
            low, high = span
            yield f"{name} {low:g} mm and over" if high is None else f"{name} {low:g} to {high:g} mm"
