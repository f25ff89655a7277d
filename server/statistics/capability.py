"""How well a process fits between its limits, with how much that number can be trusted."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from server.statistics.caveats import few_points
from server.statistics.errors import UnusableInput, ZeroWidthLimit
from server.statistics.inputs import finite, positive, proportion
from server.statistics.interval import Interval
from server.statistics.quantiles import gamma_quantile, normal_quantile


@dataclass(frozen=True, slots=True)
class Capability:
    """Capability with interval and count; a figure is None where the limit it needs is not there."""

    cp: Interval | None
    cpk: Interval
    toward_low: float | None
    toward_high: float | None
    off_centre: float | None
    count: int
    cannot_tell: tuple[str, ...]


def capability(
    mean: float, sd: float, count: int, low: float | None, high: float | None, confidence: float = 0.95
) -> Capability:
    """Give Cp and Cpk of a steady process, each with its interval.

    Equation: Cp = (high − low)/6s; Cpk = min(mean − low, high − mean)/3s; off_centre = |mid − mean|/half width.
    Inputs: mean, sd s, low, high [one unit]; count n [readings]; confidence [1]; None for a limit not there.
    Result: Capability [1].
    Example:
        >>> print(capability(mean=16.0, sd=2.0, count=45, low=8.0, high=20.0).cpk)
        0.667 (0.497 to 0.837, 95 %)

    Range and traps: steady, near normal readings; a chart out of control has no capability. 2 readings or more.
    Source: NIST/SEMATECH e-Handbook 6.1.6; interval of Cpk after Bissell, Applied Statistics 39 (1990) 331.
    """
    middle, spread = finite("mean", mean), positive("sd", sd)
    toward_low = None if low is None else (middle - finite("low", low)) / (3.0 * spread)
    toward_high = None if high is None else (finite("high", high) - middle) / (3.0 * spread)
    sides = [side for side in (toward_low, toward_high) if side is not None]
    if not sides:
        raise UnusableInput("low and high", None, "a limit on one side at least", "Without one, nothing was asked.")
    cp, off_centre = None, None
    if low is not None and high is not None:
        cp, off_centre = _both_sides(middle, spread, count, (low, high), confidence)
    caveats = (*few_points(count, 50), "It holds only while the work is steady, and says nothing of any one joint.")
    cpk = cpk_interval(min(sides), count, confidence)
    return Capability(cp, cpk, toward_low, toward_high, off_centre, count, caveats)


def cpk_interval(cpk: float, count: int, confidence: float = 0.95) -> Interval:
    """Give the interval of a Cpk found from so many readings.

    Equation: Cpk ± z √(1/(9n) + Cpk²/(2(n − 1))).
    Inputs: cpk [1]; count n [readings]; confidence [1].
    Result: Interval [1].
    Example:
        >>> print(cpk_interval(1.33, 20))
        1.33 (0.883 to 1.78, 95 %)

    Range and traps: 2 readings or more; below 20 it is only a rough guide.
    Source: Bissell, Applied Statistics 39 (1990) 331.
    """
    if finite("count", count) < 2:
        raise UnusableInput("count", count, "2 readings or more", "Wait for more before speaking of capability.")
    deviate = normal_quantile((1.0 + proportion("confidence", confidence)) / 2.0)
    reach = deviate * sqrt(1.0 / (9.0 * count) + finite("cpk", cpk) ** 2 / (2.0 * (count - 1)))
    return Interval(cpk, cpk - reach, cpk + reach, confidence)


def _both_sides(
    mean: float, sd: float, count: int, limits: tuple[float, float], confidence: float
) -> tuple[Interval, float]:
    """Cp with its chi-square interval, and how far the mean is from the middle in half widths."""
    low, high = limits
    if low >= high:
        raise ZeroWidthLimit("low", low, f"a number below high, {high!r}", "Correct the limit in its procedure.")
    cp, tail, half = (high - low) / (6.0 * sd), (1.0 - confidence) / 2.0, (count - 1) / 2.0
    least, most = (cp * sqrt(gamma_quantile(half, share) / half) for share in (tail, 1.0 - tail))
    return Interval(cp, least, most, confidence), abs((low + high) / 2.0 - mean) / ((high - low) / 2.0)
