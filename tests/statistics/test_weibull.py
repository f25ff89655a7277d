"""Life curves from failures and lives still running."""

import math

import numpy as np
import pytest
from lifelines import WeibullFitter
from scipy.stats import CensoredData, weibull_min

from server.statistics.errors import UnusableInput
from server.statistics.weibull import TooFewFailures, weibull_fit


def drawn(seed: int, count: int, shape: float, scale: float, watched: float) -> tuple[np.ndarray, np.ndarray]:
    """Lives drawn from a known curve, watched for a time that differs from one to the next."""
    draws = np.random.default_rng(seed)
    lives, ends = scale * draws.weibull(shape, count), watched * draws.random(count)
    return np.minimum(lives, ends), lives <= ends


@pytest.mark.parametrize(("seed", "count", "shape"), [(1, 60, 2.0), (2, 200, 0.7), (3, 40, 5.0), (4, 2000, 1.4)])
def test_as_lifelines(seed: int, count: int, shape: float) -> None:
    """Shape, scale, likelihood and both intervals are those of lifelines."""
    times, failed = drawn(seed, count, shape, 1000.0, 2000.0)
    ours, theirs = weibull_fit(times, failed), WeibullFitter().fit(times, failed)
    assert ours.shape.estimate == pytest.approx(theirs.rho_, rel=1e-4)
    assert ours.scale.estimate == pytest.approx(theirs.lambda_, rel=1e-4)
    assert -ours.negative_log_likelihood == pytest.approx(theirs.log_likelihood_, abs=1e-4)
    assert ours.shape_error == pytest.approx(theirs.summary.loc["rho_", "se(coef)"], rel=1e-3)
    assert ours.scale_error == pytest.approx(theirs.summary.loc["lambda_", "se(coef)"], rel=1e-3)


def test_as_scipy() -> None:
    """Shape and scale are those of scipy's fit of censored data."""
    times, failed = drawn(5, 80, 2.5, 10.0, 15.0)
    data = CensoredData(uncensored=times[failed], right=times[~failed])
    shape, _, scale = weibull_min.fit(data, floc=0)
    ours = weibull_fit(times, failed)
    assert (ours.shape.estimate, ours.scale.estimate) == pytest.approx((shape, scale), rel=1e-4)


def test_the_fit_is_the_highest_point() -> None:
    """Moving shape or scale by a hundredth either way makes the lives less likely."""
    times, failed = drawn(6, 50, 2.0, 10.0, 15.0)
    fit = weibull_fit(times, failed)

    def unlikely(shape: float, scale: float) -> float:
        law = weibull_min(shape, scale=scale)
        return -float(law.logpdf(times[failed]).sum() + law.logsf(times[~failed]).sum())

    best = unlikely(fit.shape.estimate, fit.scale.estimate)
    assert best == pytest.approx(fit.negative_log_likelihood, abs=1e-8)
    for shape, scale in ((1.01, 1.0), (0.99, 1.0), (1.0, 1.01), (1.0, 0.99)):
        assert unlikely(fit.shape.estimate * shape, fit.scale.estimate * scale) > best


def test_unit_of_time_does_not_matter() -> None:
    """Lives in seconds give the same shape as in years, and a scale as many times larger."""
    times, failed = drawn(7, 40, 3.0, 10.0, 12.0)
    years, seconds = weibull_fit(times, failed), weibull_fit(times * 3.15e7, failed)
    assert seconds.shape.estimate == pytest.approx(years.shape.estimate, rel=1e-9)
    assert seconds.scale.estimate == pytest.approx(years.scale.estimate * 3.15e7, rel=1e-9)


def test_curve_figures() -> None:
    """Mean, spread and survival follow scipy's curve of that shape and scale."""
    fit = weibull_fit([16, 34, 53, 75, 93, 120], [True] * 6)
    law = weibull_min(fit.shape.estimate, scale=fit.scale.estimate)
    assert (fit.mean, fit.sd) == pytest.approx((law.mean(), law.std()), rel=1e-9)
    assert fit.surviving(50.0) == pytest.approx(law.sf(50.0), rel=1e-9)
    assert fit.surviving(0.0) == 1.0


@pytest.mark.parametrize("failures", [0, 1, 4])
def test_too_few_failures(failures: int) -> None:
    """Under five failures it gives no curve and says what to use instead."""
    with pytest.raises(TooFewFailures, match=f"failures is {failures}; expected 5 or more. .*weibayes"):
        weibull_fit(range(1, 11), [place < failures for place in range(10)])


def test_five_failures_are_enough() -> None:
    """At five failures there is a curve, with a warning about its shape."""
    fit = weibull_fit(range(1, 11), [place < 5 for place in range(10)])
    assert math.isfinite(fit.shape.high)
    assert "shape comes out too high" in fit.cannot_tell[0]


def test_all_at_one_time() -> None:
    """Failures all at one time have no shape, and the error says so."""
    with pytest.raises(UnusableInput, match="failures at different times"):
        weibull_fit([7.0] * 6, [True] * 6)
