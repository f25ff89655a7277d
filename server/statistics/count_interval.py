"""The exact range of a rate behind a count."""

from __future__ import annotations

from server.statistics.inputs import positive, proportion
from server.statistics.interval import Interval
from server.statistics.quantiles import gamma_quantile
from server.statistics.tallies import whole


def count_interval(count: int, exposure: float = 1.0, confidence: float = 0.95) -> Interval:
    """Give the exact (Garwood) interval of a Poisson rate.

    Equation: low = ½χ²(α/2; 2k)/E, high = ½χ²(1 − α/2; 2k + 2)/E, α = 1 − confidence.
    Inputs: count k [faults]; exposure E [frames, hours …]; confidence [1].
    Result: Interval [faults per unit of exposure].
    Example:
        >>> print(count_interval(3, exposure=60))
        0.05 (0.0103 to 0.146, 95 %)

    Range and traps: a count of 0 still has an upper end. Covers at least what it says, often more.
    Source: Garwood, Biometrika 28 (1936) 437.
    """
    faults, span = whole("count", count), positive("exposure", exposure)
    tail = (1.0 - proportion("confidence", confidence)) / 2.0
    low = gamma_quantile(faults, tail) if faults else 0.0
    return Interval(faults / span, low / span, gamma_quantile(faults + 1, 1.0 - tail) / span, confidence)
