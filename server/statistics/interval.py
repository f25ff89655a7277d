"""An estimate with the range it may as well have."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Interval:
    """An estimate, its lower and upper end, and the confidence of the pair."""

    estimate: float
    low: float
    high: float
    confidence: float

    def __str__(self) -> str:
        """The interval as a reader wants it: 0.14 (0.058 to 0.27, 95 %)."""
        return f"{self.estimate:.3g} ({self.low:.3g} to {self.high:.3g}, {100.0 * self.confidence:g} %)"
