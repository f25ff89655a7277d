"""Straight lines."""

import numpy as np
import pytest
from scipy.stats import linregress

from server.statistics.errors import UnusableInput
from server.statistics.line_fit import fit_line


@pytest.mark.parametrize("seed", range(5))
def test_as_scipy(seed: int) -> None:
    """Slope, intercept, their errors and r² are those of scipy."""
    draws = np.random.default_rng(seed)
    x = draws.normal(50.0, 20.0, 30)
    y = 3.0 - 0.2 * x + draws.normal(0.0, 2.0, 30)
    ours, theirs = fit_line(x, y), linregress(x, y)
    assert (ours.slope, ours.intercept) == pytest.approx((theirs.slope, theirs.intercept), rel=1e-9)
    assert (ours.slope_error, ours.intercept_error) == pytest.approx((theirs.stderr, theirs.intercept_stderr), rel=1e-9)
    assert ours.r_squared == pytest.approx(theirs.rvalue**2, rel=1e-9)


def test_spread_left_by_hand() -> None:
    """A line through 0, 1 and 3 leaves residuals 1/6, −1/3 and 1/6."""
    assert fit_line([0.0, 1.0, 2.0], [0.0, 1.0, 3.0]).residual_sd == pytest.approx((1 / 6) ** 0.5)


def test_level_readings() -> None:
    """Readings that never change have slope nought and leave nothing unexplained."""
    fit = fit_line([0.0, 1.0, 2.0], [5.0, 5.0, 5.0])
    assert (fit.slope, fit.intercept, fit.r_squared) == (0.0, 5.0, 1.0)


@pytest.mark.parametrize(("x", "y"), [([1, 2], [1, 2]), ([1, 2, 3], [1, 2, 3, 4]), ([2, 2, 2], [1, 2, 3])])
def test_inputs(x: list[float], y: list[float]) -> None:
    """Two pairs, rows that do not match and a single place are refused."""
    with pytest.raises(UnusableInput):
        fit_line(x, y)
