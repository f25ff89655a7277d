"""Life curves of a stated shape."""

import math

import pytest

from server.statistics.count_interval import count_interval
from server.statistics.errors import UnusableInput
from server.statistics.weibayes import weibayes
from server.statistics.weibull import weibull_fit


def test_shape_one_is_time_over_failures() -> None:
    """At shape 1 the scale is the total time over the failures, its ends those of the count."""
    found = weibayes([10.0, 20.0, 30.0], [True, False, True], shape=1.0)
    counted = count_interval(2, 60.0)
    assert found.scale == pytest.approx(30.0)
    assert found.low == pytest.approx(1.0 / counted.high)
    assert found.high == pytest.approx(1.0 / counted.low)


def test_agrees_with_the_fit_at_its_own_shape() -> None:
    """Given the shape a full fit found, it finds the scale the fit found."""
    times, failed = [16.0, 34.0, 53.0, 75.0, 93.0, 120.0, 150.0], [True] * 6 + [False]
    fit = weibull_fit(times, failed)
    assert weibayes(times, failed, fit.shape.estimate).scale == pytest.approx(fit.scale.estimate, rel=1e-9)


def test_no_failure_leaves_a_lower_end() -> None:
    """Without a failure there is no scale and no upper end, but a lower one."""
    found = weibayes([2.0] * 60, [False] * 60, shape=2.0)
    assert (found.scale, found.high, found.failures) == (None, None, 0)
    assert found.low == pytest.approx(2.0 * math.sqrt(60 / -math.log(0.025)))


def test_high_powers_do_not_overflow() -> None:
    """Long lives and a steep shape stay finite."""
    assert weibayes([1e6, 2e6], [True, False], shape=80.0).scale == pytest.approx(2e6, rel=0.01)


def test_inputs() -> None:
    """A shape of nothing is refused; the stated shape is said back."""
    with pytest.raises(UnusableInput, match="shape is 0"):
        weibayes([1.0], [True], shape=0.0)
    assert "shape 2.5 was stated" in weibayes([1.0], [True], shape=2.5).cannot_tell[0]
