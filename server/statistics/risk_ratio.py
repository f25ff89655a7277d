"""How many times more often one group was faulty than another."""

from __future__ import annotations

from math import exp, log, sqrt

from server.statistics.inputs import proportion
from server.statistics.interval import Interval
from server.statistics.quantiles import normal_quantile
from server.statistics.tallies import tally


def risk_ratio(faults: int, seen: int, other_faults: int, other_seen: int, confidence: float = 0.95) -> Interval:
    """Give the ratio of two shares of faults with its (Katz) interval.

    Equation: RR = (a/n₁)/(c/n₂); ln RR ± z √(1/a − 1/n₁ + 1/c − 1/n₂).
    Inputs: faults a, seen n₁, other_faults c, other_seen n₂ [joints]; confidence [1].
    Result: Interval [1].
    Example:
        >>> print(risk_ratio(3, 12, 4, 188))
        11.8 (2.96 to 46.6, 95 %)

    Range and traps: with a zero anywhere ½ is added to each fault count and 1 to each group; wide is honest.
    Source: Katz and others, Biometrics 34 (1978) 469.
    """
    (a, n1), (c, n2) = tally(faults, seen), tally(other_faults, other_seen)
    deviate = normal_quantile((1.0 + proportion("confidence", confidence)) / 2.0)
    nudge = 0.0 if a and c else 0.5
    first, other, size, other_size = a + nudge, c + nudge, n1 + 2.0 * nudge, n2 + 2.0 * nudge
    ratio = (first / size) / (other / other_size)
    reach = deviate * sqrt(1.0 / first - 1.0 / size + 1.0 / other - 1.0 / other_size)
    return Interval(ratio, exp(log(ratio) - reach), exp(log(ratio) + reach), confidence)
