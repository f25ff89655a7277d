"""The numbers that turn a mean range into a spread, from their definitions."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from math import gamma, sqrt
from statistics import NormalDist

from server.statistics.errors import UnusableInput

_STEP = 0.1
_REACH = 8.0
_PLACES = round(2 * _REACH / _STEP)


@dataclass(frozen=True, slots=True)
class ChartConstants:
    """Mean d2 and spread d3 of the range in sigmas, c4 of the standard deviation, and A2, D3, D4 made of them."""

    d2: float
    d3: float
    c4: float
    a2: float
    d3_limit: float
    d4_limit: float


@cache
def chart_constants(size: int) -> ChartConstants:
    """Give the control-chart constants for groups of one size.

    Equation: range W: P(W ≤ w) = n ∫ φ(x)(Φ(x + w) − Φ(x))ⁿ⁻¹ dx; d2, d3 its mean and standard deviation;
        c4 = √(2/(n − 1)) Γ(n/2)/Γ((n − 1)/2); A2 = 3/(d2 √n); D3, D4 = 1 ∓ 3 d3/d2, D3 at least 0.
    Inputs: size n [readings per group].
    Result: ChartConstants [1].
    Example:
        >>> round(chart_constants(5).a2, 3)
        0.577

    Range and traps: 2 to 25, normal readings; for larger groups use the standard deviation instead.
    Source: definitions, as in ASTM E2587.
    """
    if not 2 <= size <= 25:
        raise UnusableInput("size", size, "2 to 25 readings per group", "Split the groups, or chart single readings.")
    mean, mean_square = _moments(size)
    spread = sqrt(mean_square - mean**2)
    c4 = sqrt(2.0 / (size - 1)) * gamma(size / 2.0) / gamma((size - 1) / 2.0)
    band = 3.0 * spread / mean
    return ChartConstants(mean, spread, c4, 3.0 / (mean * sqrt(size)), max(0.0, 1.0 - band), 1.0 + band)


def _moments(size: int) -> tuple[float, float]:
    """The mean and the mean square of the range, by Simpson's rule over its upper tail."""
    below = [NormalDist().cdf(place * _STEP - _REACH) for place in range(_PLACES + 1)]
    heights = [NormalDist().pdf(place * _STEP - _REACH) for place in range(_PLACES + 1)]
    simpson = [1, *(4, 2) * (_PLACES // 2 - 1), 4, 1]
    mean, mean_square = 0.0, 0.0
    for wide, weight in enumerate(simpson):
        pairs = zip(heights, below, below[wide:] + [1.0] * wide, strict=True)
        inside = size * _STEP * sum(height * (right - left) ** (size - 1) for height, left, right in pairs)
        mean += weight * _STEP / 3.0 * (1.0 - inside)
        mean_square += weight * _STEP / 3.0 * 2.0 * wide * _STEP * (1.0 - inside)
    return mean, mean_square
