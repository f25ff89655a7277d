"""Draws that depend on nothing but the seed and on what is being drawn for, so that one change moves nothing else."""

import math
from random import Random


class Dice:
    """A stream of draws of its own for one named thing."""

    def __init__(self, seed: int, *names: object) -> None:
        """Begin the stream for this seed and these names."""
        # Only random() itself promises the same numbers on every Python; all else is made from it here.
        self._next = Random("/".join(map(str, (seed, *names)))).random  # noqa: S311

    def chance(self, share: float) -> bool:
        """Say yes in this share of cases."""
        return self._next() < share

    def between(self, low: float, high: float) -> float:
        """Draw evenly from the range."""
        return low + (high - low) * self._next()

    def whole(self, low: int, high: int) -> int:
        """Draw a whole number, both ends included."""
        return low + int(self._next() * (high - low + 1))

    def normal(self, mean: float, spread: float, low: float, high: float) -> float:
        """Draw from a bell curve, held inside the range."""
        return min(high, max(low, mean + spread * self._bell()))

    def lognormal(self, median: float, sigma: float, low: float, high: float) -> float:
        """Draw from a curve with a long upper tail, held inside the range."""
        return min(high, max(low, median * math.exp(sigma * self._bell())))

    def pick(self, *shares: tuple[float, int]) -> int:
        """Draw one of the values by its share; the last takes the rest."""
        drawn = self._next()
        for share, value in shares[:-1]:
            drawn -= share
            if drawn < 0:
                return value
        return shares[-1][1]

    def hexes(self, digits: int) -> str:
        """Draw this many hex digits."""
        return "".join("0123456789abcdef"[int(self._next() * 16)] for _ in range(digits))

    def _bell(self) -> float:
        return math.sqrt(-2 * math.log(1 - self._next())) * math.cos(math.tau * self._next())
