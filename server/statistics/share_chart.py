"""Faulty joints per group: shares in time order, with exact limits or the classical three sigmas."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt

from server.statistics.caveats import NOT_THE_JOINT, few_points
from server.statistics.chart import ControlChart, Limits, Track
from server.statistics.fault_limits import FALSE_ALARM, fault_limits
from server.statistics.inputs import proportion
from server.statistics.tallies import group_tallies


def share_chart(
    faults: Sequence[int],
    seen: Sequence[int],
    usual_rate: float | None = None,
    exact: bool = True,
    false_alarm: float = FALSE_ALARM,
) -> ControlChart:
    """Chart the share of faulty joints in each group.

    Equation: p̄ = Σ faults/Σ seen; limits exact binomial, or p̄ ± 3 √(p̄(1 − p̄)/n) kept within 0 and 1.
    Inputs: faults, seen [joints] per group, in time order; usual_rate [1] or None for p̄; exact [yes or no].
    Result: ControlChart with the track "share" [1].
    Example:
        >>> share_chart([0, 1, 0, 3], [8, 8, 8, 8], usual_rate=0.03).tracks[0].signals
        (3,)

    Range and traps: an exact upper limit is drawn at the largest count that is no signal. Three sigmas at 8 joints
        and 3 % signal already on 2 faults, sixteen times as often as they promise.
    Source: NIST/SEMATECH e-Handbook 6.3.3.2; exact limits by definition.
    """
    groups = group_tallies(faults, seen)
    total = sum(size for _, size in groups)
    rate = sum(bad for bad, _ in groups) / total if usual_rate is None else proportion("usual_rate", usual_rate)
    points = tuple(bad / size for bad, size in groups)
    limits = {size: _limits(size, rate, exact, false_alarm) for _, size in groups}
    lower: Limits = tuple(limits[size][0] for _, size in groups)
    upper: Limits = tuple(limits[size][1] for _, size in groups)
    track = Track("share", points, rate, lower, upper)
    cause = "It shows when faults grew more frequent, not why."
    caveats = (*few_points(len(groups)), cause, NOT_THE_JOINT)
    return ControlChart("share", (track,), {"rate": rate, "seen": total}, caveats)


def _limits(size: int, rate: float, exact: bool, false_alarm: float) -> tuple[float | None, float | None]:
    """The lowest and highest share that are no signal, or none where every share is one thing or the other."""
    if not 0.0 < rate < 1.0:
        return None, None
    if exact:
        low, high = fault_limits(size, rate, false_alarm)
        return (None if low is None else (low + 1) / size), (high - 1) / size
    reach = 3.0 * sqrt(rate * (1.0 - rate) / size)
    return max(0.0, rate - reach), min(1.0, rate + reach)
