"""A stretch of time somebody asks about, and which of some passes ended in it."""

from bisect import bisect_left
from collections.abc import Sequence
from typing import NamedTuple

from server.facts.in_parts import first_at
from server.occasions.uses import FAR_MS, Use


class Stretch(NamedTuple):
    """A stretch of time from a moment on and before another [ms, UTC]."""

    since_ms: int = -FAR_MS
    until_ms: int = FAR_MS

    def holds(self, at_ms: int) -> bool:
        """Tell whether a moment lies in it."""
        return self.since_ms <= at_ms < self.until_ms

    def within(self, other: "Stretch") -> "Stretch":
        """Give what lies in both."""
        return Stretch(max(self.since_ms, other.since_ms), min(self.until_ms, other.until_ms))

    def bits_of(self, uses: Sequence[Use]) -> int:
        """Give those of a frame's passes that ended in it, as bits."""
        low, high = (bisect_left(uses, end_ms, key=ended_ms) for end_ms in self)
        return (1 << high) - (1 << low) if low < high else 0

    def of(self, uses: Sequence[Use]) -> Sequence[Use]:
        """Give those of many passes that ended in it."""
        if self == EVER:
            return uses
        low, high = (first_at(uses, end_ms, ended_ms) for end_ms in self)
        return uses[low:high]


EVER = Stretch()


def ended_ms(use: Use) -> int:
    """When a pass ended [ms, UTC]."""
    return use.at.at_ms
