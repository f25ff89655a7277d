"""The exact range of a share behind a count of faults."""

from __future__ import annotations

from server.statistics.inputs import proportion
from server.statistics.interval import Interval
from server.statistics.quantiles import beta_quantile
from server.statistics.tallies import tally


def share_interval(faults: int, seen: int, confidence: float = 0.95) -> Interval:
    """Give the exact (Clopper–Pearson) interval of a share.

    Equation: low = Beta(α/2; k, n − k + 1), high = Beta(1 − α/2; k + 1, n − k), α = 1 − confidence.
    Inputs: faults k, seen n [joints]; confidence [1].
    Result: Interval [1].
    Example:
        >>> print(share_interval(0, 60))
        0 (0 to 0.0596, 95 %)

    Range and traps: none in 60 still leaves room for 6 %. Covers at least what it says, often more.
    Source: Clopper and Pearson, Biometrika 26 (1934) 404.
    """
    bad, size = tally(faults, seen)
    tail = (1.0 - proportion("confidence", confidence)) / 2.0
    low = beta_quantile(bad, size - bad + 1, tail) if bad else 0.0
    high = beta_quantile(bad + 1, size - bad, 1.0 - tail) if bad < size else 1.0
    return Interval(bad / size, low, high, confidence)
