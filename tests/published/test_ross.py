"""Figures of Ross, Introduction to Probability and Statistics for Engineers and Scientists, section 13.6 (read).

The printed points drift by up to 0.02, rounding having been carried on from one to the next.
"""

import pytest

from server.statistics.chart import ControlChart
from server.statistics.ewma import ewma_chart

READINGS = [48, 52, 70, 62, 57, 81, 56, 59, 77, 82, 78, 80, 74, 82, 68, 84]
POINTS = [
    57.00, 55.75, 59.31, 59.98, 59.24, 64.68, 62.50, 61.61,
    65.48, 69.60, 71.70, 73.78, 73.83, 75.87, 73.90, 76.43,
]  # fmt: skip


@pytest.fixture(name="chart", scope="module")
def _chart() -> ControlChart:
    # Means of four readings with sigma 24 about 62, the average started at 60.
    return ewma_chart(READINGS, centre=62.0, sigma=24.0 / 2.0, weight=0.25, start=60.0)


@pytest.mark.parametrize(("place", "printed"), [*enumerate(POINTS)])
def test_point(chart: ControlChart, place: int, printed: float) -> None:
    """Each of the sixteen points of the ewma with weight 0.25 from 60."""
    assert chart.track("ewma").points[place] == pytest.approx(printed, abs=0.03)


def test_limits(chart: ControlChart) -> None:
    """Limits 48.39 and 75.61."""
    assert chart.figures["lower_in_the_end"] == pytest.approx(48.39, abs=0.006)
    assert chart.figures["upper_in_the_end"] == pytest.approx(75.61, abs=0.006)
