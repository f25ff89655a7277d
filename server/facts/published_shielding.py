"""Whether the side away from the arc wants gas: the temperature under which a published text lets it go without."""

import tomllib
from functools import cache
from importlib.resources import files

from server.facts.noun import Noun


class ShieldingFigures(Noun):
    """The temperature the backside has to stay under to go without gas [°C], and who says so."""

    backside_under_c: float
    backside_source: str

    def needs_backing_gas(self, backside_c: float) -> bool:
        """Tell whether a backside as hot as shown needs gas; at the figure itself it does."""
        return backside_c >= self.backside_under_c


@cache
def shielding_figures() -> ShieldingFigures:
    """Give the figures the program brings."""
    text = (files("server.facts") / "published_shielding.toml").read_text(encoding="utf-8")
    return ShieldingFigures(**tomllib.loads(text))
