"""A life curve from few failures or none, its shape stated beforehand."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import exp, fsum, log

from server.statistics.count_interval import count_interval
from server.statistics.inputs import positive
from server.statistics.lifetimes import lifetimes


@dataclass(frozen=True, slots=True)
class Weibayes:
    """The scale for a stated shape with its ends (None where no failure sets them), and what it cannot tell."""

    scale: float | None
    low: float | None
    high: float | None
    confidence: float
    stated_shape: float
    failures: int
    count: int
    cannot_tell: tuple[str, ...]


def weibayes(times: Iterable[float], failed: Iterable[bool], shape: float, confidence: float = 0.95) -> Weibayes:
    """Give the scale of a Weibull curve whose shape is known from elsewhere.

    Equation: η = (Σt^β/r)^(1/β); ends from the exact Poisson interval of the r failures.
    Inputs: times [any one unit]; failed [yes or no] per life; shape β [1], stated; confidence [1].
    Result: Weibayes; scale [the times' unit].
    Example:
        >>> found = weibayes([1.0, 2.0, 3.0, 4.0], [False, False, False, True], shape=2.0)
        >>> round(found.scale, 2), round(found.low, 2)
        (5.48, 2.32)

    Range and traps: no failure leaves only a lower end. Everything hangs on the stated shape; say where it is from.
    Source: Abernethy, The New Weibull Handbook, chapter on Weibayes; ends after Garwood (1936).
    """
    lives, ends = lifetimes(times, failed)
    slope, failures, longest = positive("shape", shape), sum(ends), max(lives)
    # Taken against the longest life, so that a high power does not overflow.
    exposure = fsum(exp(slope * log(life / longest)) for life in lives)
    expected = count_interval(failures, exposure, confidence)
    middle, low, high = (_scale(rate, slope, longest) for rate in (expected.estimate, expected.high, expected.low))
    stated = f"The shape {slope:g} was stated, not found; another shape gives another curve."
    return Weibayes(middle, low, high, confidence, slope, failures, len(lives), (stated,))


def _scale(rate: float | None, shape: float, longest: float) -> float | None:
    """The scale at which so many failures per exposure are expected; none for a rate of zero."""
    return longest * rate ** (-1.0 / shape) if rate else None
