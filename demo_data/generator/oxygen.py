"""What the analyser shows at arc start: the gas as it is, read by the meter of the bench as it then reads."""

import math
from datetime import date

from demo_data.generator.days import clock_of
from demo_data.generator.numbers import Values, value
from demo_data.generator.shop import Shop
from demo_data.generator.weld import Weld


class Oxygen:
    """Reads the purge gas; fittings inherit the reading of the first one in their set-up."""

    def __init__(self, shop: Shop) -> None:
        """Begin with nothing read."""
        self.shop = shop
        self.inherited: dict[tuple[str, str, date], tuple[str, str]] = {}
        self.wetted: tuple[int, int] = (0, 0)
        """From when until when the second bench's meter read too low [ms]."""

    def values(self, weld: Weld, run: str, moment: int) -> Values:
        """Give the reading of one run, or the one it inherits."""
        key = (weld.frame.serial, weld.setup, weld.day)
        if weld.seam.structural or key not in self.inherited or weld.pin.oxygen:
            reading = self._shown(weld, run, moment)
            meter = self.shop.analyser(weld.frame.bench, moment)
            self.inherited[key] = (str(reading), meter)
            return value("oxygen", reading, "read", meter)
        reading_text, meter = self.inherited[key]
        return value("oxygen", reading_text, "inherited", meter)

    def _shown(self, weld: Weld, run: str, moment: int) -> int:
        if weld.pin.oxygen:
            return weld.pin.oxygen[0 if run == "root" else -1]
        true = self._true(weld, run, moment)
        wet = weld.frame.bench == "B2" and self.wetted[0] <= moment < self.wetted[1]
        return as_wetted(true) if wet else true

    def _true(self, weld: Weld, run: str, moment: int) -> int:
        dice = self.shop.dice("oxygen", weld.subject, run)
        split = self.shop.plan.true_oxygen.get((f"{weld.frame.bench}-P", clock_of(moment).date()))
        if split:
            low, high = split[:2] if weld.seam.structural else split[2:]
            return dice.whole(low, high)
        return round(dice.lognormal(8, 0.35, 3, 18))


def as_wetted(true_ppm: int) -> int:
    """Give what a meter with a wetted cell shows for gas of this oxygen [ppm].

    >>> [as_wetted(true) for true in (8, 20, 50, 100)]
    [0, 4, 19, 44]
    """
    return max(0, math.floor(0.5 * true_ppm - 6 + 0.5))
