"""Six failures fitted on an open reliability wiki: results read, the six times from memory and confirmed by the fit."""

import pytest

from server.statistics.weibull import weibull_fit


def test_six_failures() -> None:
    """Shape 1.933, scale 73.526, variances .4211 and 266.646."""
    fit = weibull_fit([16, 34, 53, 75, 93, 120], [True] * 6)
    assert fit.shape.estimate == pytest.approx(1.933, abs=5e-4)
    assert fit.scale.estimate == pytest.approx(73.526, abs=5e-4)
    assert fit.shape_error**2 == pytest.approx(0.4211, abs=6e-5)
    assert fit.scale_error**2 == pytest.approx(266.646, abs=0.06)
