"""Means and ranges of small groups, and the constants behind them."""

import pytest
from scipy.integrate import quad
from scipy.stats import norm

from server.statistics.chart_constants import chart_constants
from server.statistics.errors import UnusableInput
from server.statistics.group_chart import group_chart

GROUPS = [[10.0, 12.0], [11.0, 9.0], [12.0, 10.0], [9.0, 12.0], [15.0, 18.0]]


def test_limits_by_hand() -> None:
    """Mean 11.8 and mean range 2.4 give limits 11.8 ± 1.880·2.4 and a range limit of 3.267·2.4."""
    chart = group_chart(GROUPS)
    assert chart.track("mean").centre == pytest.approx(11.8)
    assert chart.track("mean").upper[0] == pytest.approx(11.8 + 1.880 * 2.4, abs=1e-3)
    assert chart.track("mean").lower[0] == pytest.approx(11.8 - 1.880 * 2.4, abs=1e-3)
    assert chart.figures["sigma"] == pytest.approx(2.4 / 1.128, abs=1e-3)
    assert chart.track("range").points == (2.0, 2.0, 2.0, 3.0, 3.0)
    assert chart.track("range").lower[0] == 0.0
    assert chart.track("range").upper[0] == pytest.approx(3.267 * 2.4, abs=2e-3)


def test_flat_groups() -> None:
    """Groups without any range have no limits, and the chart says why."""
    chart = group_chart([[5.0, 5.0], [5.0, 5.0]])
    assert chart.track("mean").upper == (None, None)
    assert "too coarse" in chart.cannot_tell[0]


@pytest.mark.parametrize("groups", [[], [[1.0, 2.0]], [[1.0, 2.0], [1.0, 2.0, 3.0]], [[1.0], [2.0]]])
def test_inputs(groups: list[list[float]]) -> None:
    """No groups, one group, groups of unlike size and single readings are refused."""
    with pytest.raises(UnusableInput):
        group_chart(groups)


@pytest.mark.parametrize("size", [2, 5, 25])
def test_mean_range_by_another_integral(size: int) -> None:
    """d2 is the area under 1 − Φⁿ − (1 − Φ)ⁿ, by scipy's quadrature."""
    area, _ = quad(lambda x: 1.0 - norm.cdf(x) ** size - norm.sf(x) ** size, -10.0, 10.0)
    assert chart_constants(size).d2 == pytest.approx(area, abs=1e-5)


def test_spread_of_the_range_of_two() -> None:
    """For pairs d3 is √(2 − 4/π)."""
    assert chart_constants(2).d3 == pytest.approx((2.0 - 4.0 / 3.141592653589793) ** 0.5, abs=1e-5)


@pytest.mark.parametrize("size", [1, 26])
def test_sizes(size: int) -> None:
    """Single readings and large groups have no such constants."""
    with pytest.raises(UnusableInput, match="2 to 25"):
        chart_constants(size)
