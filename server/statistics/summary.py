"""Count, mean and spread of a row of readings."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import fsum, sqrt

from server.statistics.series import series


@dataclass(frozen=True, slots=True)
class Summary:
    """How many readings, their mean and their standard deviation (None for a single one)."""

    count: int
    mean: float
    sd: float | None


def summarise(values: Iterable[float]) -> Summary:
    """Give count, mean and standard deviation of readings.

    Equation: s² = Σ(x − x̄)²/(n − 1), in two passes.
    Inputs: values [any one unit].
    Result: Summary; mean and sd [the values' unit].
    Example:
        >>> summarise([41.0, 42.0, 43.0])
        Summary(count=3, mean=42.0, sd=1.0)

    Range and traps: one reading has no spread. Never Σx² − n x̄², which loses every digit on large readings.
    Source: NIST/SEMATECH e-Handbook 1.3.5.6.
    """
    readings = series("values", values, at_least=1)
    count = len(readings)
    mean = fsum(readings) / count
    if count == 1:
        return Summary(count, mean, None)
    return Summary(count, mean, sqrt(fsum((reading - mean) ** 2 for reading in readings) / (count - 1)))
