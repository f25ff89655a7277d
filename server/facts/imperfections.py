"""How large an imperfection of a weld may be at a quality level, by a published table of limits."""

import tomllib
from functools import cache
from importlib.resources import files
from typing import Literal, NamedTuple

from server.facts.noun import Noun

Level = Literal["B", "C", "D"]
Size = Literal["wall", "bead", "butt"]
THINNEST_MM = 0.5
"""The rows begin at this thickness; below it the table says nothing."""


class WeldSize(NamedTuple):
    """What the shares are taken of [mm]: the wall, the width of the bead, the nominal thickness of the butt weld."""

    wall_mm: float
    bead_mm: float
    butt_mm: float

    def of(self, size: Size) -> float:
        """Give one of the three."""
        return {"wall": self.wall_mm, "bead": self.bead_mm, "butt": self.butt_mm}[size]


class Allowed(NamedTuple):
    """The largest size [mm]; none when it is not allowed at all. `short` allows it over short lengths only."""

    high_mm: float | None
    short: bool


class ImperfectionLimit(Noun):
    """One row at one level: fixed size and share [mm, 1], both none where nothing is allowed, and a largest size."""

    level: Level
    over_mm: float | None = None
    upto_mm: float | None = None
    fixed_mm: float | None = None
    share: float | None = None
    most_mm: float | None = None
    short: bool = False

    def holds_for(self, thickness_mm: float) -> bool:
        """Tell whether the row is for this thickness."""
        return (self.over_mm is None or thickness_mm > self.over_mm) and (
            self.upto_mm is None or thickness_mm <= self.upto_mm
        )

    def allowed(self, shared_of_mm: float) -> Allowed:
        """Give what it allows where the share is taken of so many mm."""
        if self.share is None and self.fixed_mm is None:
            return Allowed(None, self.short)
        high = (self.fixed_mm or 0.0) + (self.share or 0.0) * shared_of_mm
        return Allowed(min(high, self.most_mm) if self.most_mm is not None else high, self.short)


class Imperfection(Noun):
    """One imperfection: its words, its number in ISO 6520-1, what its limit is a share of, and its rows."""

    words: str
    number: str
    of: Size
    by: Size = "wall"
    limits: tuple[ImperfectionLimit, ...]

    def allowed(self, level: Level, size: WeldSize) -> Allowed:
        """Give what a level allows on a weld of this size; raises LookupError under the thinnest row."""
        thickness_mm = size.of("butt") if self.of == "butt" else size.of(self.by)
        if thickness_mm < THINNEST_MM:
            raise LookupError(f"{self.words}: the table begins at {THINNEST_MM} mm; this is {thickness_mm:g} mm")
        row = next(each for each in self.limits if each.level == level and each.holds_for(thickness_mm))
        return row.allowed(size.of(self.of))


@cache
def published_imperfections() -> tuple[str, dict[str, Imperfection]]:
    """Give the edition and its imperfections by key."""
    told = tomllib.loads((files("server.facts") / "published_imperfections.toml").read_text(encoding="utf-8"))
    return told.pop("edition"), {key: Imperfection(**table) for key, table in told.items()}
