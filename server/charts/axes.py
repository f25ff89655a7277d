"""Axes of a curve: even or by powers of ten, from where to where, and where the marks with their numbers stand."""

import math
from dataclasses import dataclass

_MOST_MARKS = 7
_STEPS = (1.0, 2.0, 2.5, 5.0, 10.0)


@dataclass(frozen=True, slots=True)
class Axis:
    """An axis with its ends, the marks on it and the words beside it; `powers` says that it goes by powers of ten."""

    words: str
    low: float
    high: float
    marks: tuple[float, ...]
    powers: bool = False

    def share(self, value: float) -> float:
        """Give where a value lies: 0 at the low end, 1 at the high end, beyond them outside the box.

        >>> Axis("time", 0.0, 200.0, ()).share(50.0)
        0.25
        """
        if not self.powers:
            return (value - self.low) / (self.high - self.low)
        # Nought has no power of ten; a tenth of the low end is far enough below the box.
        above = math.log10(max(value, 0.1 * self.low) / self.low)
        return above / math.log10(self.high / self.low)


def even_axis(words: str, low: float, high: float) -> Axis:
    """Make an even axis with marks at round numbers inside it.

    >>> even_axis("time", 0.0, 190.0).marks
    (0.0, 50.0, 100.0, 150.0)
    """
    high = high if high > low else low + 1.0
    step = _round_step((high - low) / _MOST_MARKS)
    first = math.ceil(low / step - 1e-9)
    count = math.floor((high - first * step) / step + 1e-9)
    return Axis(words, low, high, tuple(round(step * (first + at), 10) for at in range(count + 1)))


def powers_axis(words: str, low: float, high: float) -> Axis:
    """Make an axis by whole powers of ten that holds both ends; both must be above zero.

    >>> powers_axis("oxygen", 4.0, 209_460.0).marks
    (1.0, 10.0, 100.0, 1000.0, 10000.0, 100000.0, 1000000.0)
    """
    first, last = math.floor(math.log10(low) + 1e-9), math.ceil(math.log10(high) - 1e-9)
    last = max(last, first + 1)
    return Axis(words, 10.0**first, 10.0**last, tuple(10.0**power for power in range(first, last + 1)), powers=True)


def _round_step(least: float) -> float:
    power = 10.0 ** math.floor(math.log10(least))
    return next(step * power for step in _STEPS if step * power >= least * (1 - 1e-9))
