"""Exact limits for counts of faults, where three sigmas would cry wolf."""

from __future__ import annotations

from server.statistics.inputs import positive, proportion
from server.statistics.tails import binomial_at_least, binomial_at_most, poisson_at_least, poisson_at_most
from server.statistics.tallies import tally

# The share of a normal curve above three sigmas, which is what a three-sigma limit promises.
FALSE_ALARM = 0.00135


def fault_limits(seen: int, usual_rate: float, false_alarm: float = FALSE_ALARM) -> tuple[int | None, int]:
    """Give the fault counts in a group that are too few and too many for the usual rate.

    Equation: high = least k with P(X ≥ k) ≤ α; low = greatest k with P(X ≤ k) ≤ α; X binomial(seen, rate).
    Inputs: seen [joints]; usual_rate, false_alarm α on each side [1].
    Result: (low or None when none is too few, high) [faults]; high = seen + 1 when no count is too many.
    Example:
        >>> fault_limits(8, 0.03)
        (None, 3)

    Range and traps: joints are taken as independent; one bad cylinder makes them anything but.
    Source: definition of the binomial tail.
    """
    _, size = tally(0, seen)
    rate, alarm = proportion("usual_rate", usual_rate), proportion("false_alarm", false_alarm)
    high = next(k for k in range(size + 2) if binomial_at_least(k, size, rate) <= alarm)
    few = [k for k in range(high) if binomial_at_most(k, size, rate) <= alarm]
    return (few[-1] if few else None), high


def count_limits(mean: float, false_alarm: float = FALSE_ALARM) -> tuple[int | None, int]:
    """Give the counts that are too few and too many when so many are usual.

    Equation: as `fault_limits` with X Poisson(mean).
    Inputs: mean [faults]; false_alarm α on each side [1].
    Result: (low or None, high) [faults].
    Example:
        >>> count_limits(2.0)
        (None, 8)

    Range and traps: mean above 0; faults come singly and independently.
    Source: definition of the Poisson tail.
    """
    usual, alarm = positive("mean", mean), proportion("false_alarm", false_alarm)
    high = 0
    while poisson_at_least(high, usual) > alarm:
        high += 1
    few = [k for k in range(high) if poisson_at_most(k, usual) <= alarm]
    return (few[-1] if few else None), high
