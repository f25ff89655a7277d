"""What public safety regulations ask of eyes and air at an arc, as figures with their clause."""

import tomllib
from functools import cache
from importlib.resources import files

from server.facts.noun import Noun


class Shade(Noun):
    """The least filter shade below an arc current [A]; at the current itself the next row's holds."""

    below_a: float
    least: int


class SafetyFigures(Noun):
    """Oxygen [%], size of the room [m³ for each welder, m], fresh air [m³/min for each welder], filter shades."""

    oxygen_deficient_below_percent: float
    oxygen_source: str
    room_least_m3: float
    ceiling_least_m: float
    fresh_air_m3_per_min: float
    ventilation_source: str
    shade_source: str
    shades: tuple[Shade, ...]

    def least_shade(self, current_a: float) -> int | None:
        """Give the least shade at a current; none above the last row."""
        return next((each.least for each in self.shades if current_a < each.below_a), None)

    def lacks_oxygen(self, oxygen_percent: float) -> bool:
        """Tell whether air is short of oxygen."""
        return oxygen_percent < self.oxygen_deficient_below_percent

    def needs_fresh_air(self, room_m3_per_welder: float, ceiling_m: float) -> bool:
        """Tell whether a room is too small or too low for welding without mechanical ventilation."""
        return room_m3_per_welder < self.room_least_m3 or ceiling_m < self.ceiling_least_m


@cache
def safety_figures() -> SafetyFigures:
    """Give the figures the program brings."""
    text = (files("server.facts") / "published_safety.toml").read_text(encoding="utf-8")
    return SafetyFigures(**tomllib.loads(text))
