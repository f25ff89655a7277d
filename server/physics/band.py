"""A figure with the band it may lie in, for advice that must never look like a verdict."""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple


class Band(NamedTuple):
    """The expected figure between the lowest and the highest that the inputs' doubt allows, all in one unit."""

    low: float
    expected: float
    high: float

    def mapped(self, change: Callable[[float], float]) -> Band:
        """Carry the band through a change that rises throughout, such as a scale or an offset.

        Example:
            >>> Band(10.0, 15.0, 24.0).mapped(lambda hold_s: hold_s + 2.0)
            Band(low=12.0, expected=17.0, high=26.0)
        """
        return Band(change(self.low), change(self.expected), change(self.high))
