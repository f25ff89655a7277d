"""How much at most slips through: the exact upper bound of a share from a sample looked at again."""

from __future__ import annotations

from server.statistics.inputs import proportion
from server.statistics.quantiles import beta_quantile
from server.statistics.tallies import tally


def slips_through(found: int, looked: int, confidence: float = 0.95) -> float:
    """Give the share that at most hides something, at one-sided confidence.

    Equation: bound = Beta(confidence; k + 1, n − k), the p at which P(X ≤ k) = 1 − confidence; 1 when k = n.
    Inputs: found k, looked n [joints]; confidence [1].
    Result: the upper bound [1].
    Example:
        >>> round(slips_through(0, 60), 4)
        0.0487

    Range and traps: a fair draw only. It counts what a second look finds; what that look misses as well it cannot.
        Drawn from few joints without putting back, the true bound is lower.
    Source: Clopper and Pearson, Biometrika 26 (1934) 404; for none found it is 1 − (1 − confidence)^(1/n).
    """
    bad, size = tally(found, looked)
    share = proportion("confidence", confidence)
    return beta_quantile(bad + 1, size - bad, share) if bad < size else 1.0
