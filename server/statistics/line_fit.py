"""A straight line through readings, for drifts and calibrations."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from math import fsum, sqrt

from server.statistics.errors import UnusableInput
from server.statistics.series import series


@dataclass(frozen=True, slots=True)
class LineFit:
    """Slope and intercept with standard errors, the share of spread explained, and the spread left."""

    slope: float
    intercept: float
    slope_error: float
    intercept_error: float
    r_squared: float
    residual_sd: float


def fit_line(x: Iterable[float], y: Iterable[float]) -> LineFit:
    """Fit y = intercept + slope·x by least squares.

    Equation: slope = Σ(x − x̄)(y − ȳ)/Σ(x − x̄)²; intercept = ȳ − slope·x̄; s² = Σ residual²/(n − 2).
    Inputs: x, y [any units], in pairs.
    Result: LineFit; slope [y per x], intercept and residual_sd [y], r_squared [1].
    Example:
        >>> fit = fit_line([0, 30, 60, 90], [0.0, 1.1, 1.9, 3.0])
        >>> round(fit.slope, 4), round(fit.r_squared, 3)
        (0.0327, 0.996)

    Range and traps: 3 pairs or more, x not all alike. The line holds between the x seen, not beyond.
    Source: NIST StRD linear regression, background page.
    """
    across, up = series("x", x, at_least=3), series("y", y, at_least=3)
    if len(across) != len(up):
        raise UnusableInput("y", len(up), f"one for each of {len(across)} x", "Give readings in pairs.")
    count = len(across)
    x_mean, y_mean = fsum(across) / count, fsum(up) / count
    dx, dy = [value - x_mean for value in across], [value - y_mean for value in up]
    sxx = fsum(d * d for d in dx)
    if sxx == 0.0:
        raise UnusableInput("x", across[0], "at least two different values", "One place gives no direction.")
    slope = fsum(a * b for a, b in zip(dx, dy, strict=True)) / sxx
    left = fsum((b - slope * a) ** 2 for a, b in zip(dx, dy, strict=True))
    syy, spread = fsum(d * d for d in dy), sqrt(left / (count - 2))
    intercept_error = spread * sqrt(1.0 / count + x_mean**2 / sxx)
    explained = 1.0 - left / syy if syy else 1.0
    return LineFit(slope, y_mean - slope * x_mean, spread / sqrt(sxx), intercept_error, explained, spread)
