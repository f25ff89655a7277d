"""Figures printed in the NIST/SEMATECH e-Handbook of Statistical Methods.

Read: individuals (6.3.2.2, from a public verification table), ewma (6.3.2.4), capability (6.1.6), survival (8.2.1.5),
Weibull (8.4.1.3), and the mean of the p-chart (6.3.3.2).
From memory: the c-chart (6.3.3.1) and the data and limits of the p-chart.
"""

import pytest

from server.statistics.capability import capability
from server.statistics.count_chart import count_chart
from server.statistics.ewma import ewma_chart
from server.statistics.individuals import individuals_chart
from server.statistics.share_chart import share_chart
from server.statistics.survival import kaplan_meier
from server.statistics.weibull import weibull_fit

FLOW_RATES = [
    52.0, 47.0, 53.0, 49.3, 50.1, 47.0, 51.0, 50.1, 51.2, 50.5,
    49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1,
]  # fmt: skip
EWMA = [
    50.60, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33,
    50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99,
]  # fmt: skip
WAFER_DEFECTS = [
    16, 14, 28, 16, 12, 20, 10, 12, 10, 17, 19, 17, 14, 16, 15, 13, 14, 16, 11, 20, 11, 19, 16, 31, 13,
]  # fmt: skip
WAFER_CHIPS = [
    12, 15, 8, 10, 4, 7, 16, 9, 14, 10, 5, 6, 17, 12, 22, 8, 10, 5, 13, 11, 20, 18, 24, 15, 9, 12, 7, 13, 9, 6,
]  # fmt: skip
FAILURES = [54, 187, 216, 240, 244, 335, 361, 373, 375, 386]


def test_individuals() -> None:
    """Section 6.3.2.2: mean 50.81, mean moving range 1.8778, limits 55.8041 and 45.8159 (read)."""
    chart = individuals_chart(FLOW_RATES[10:])
    track = chart.track("individuals")
    assert chart.figures["mean"] == pytest.approx(50.81, abs=5e-5)
    assert chart.figures["mean_range"] == pytest.approx(1.8778, abs=5e-5)
    assert track.upper[0] == pytest.approx(55.8041, abs=1e-4)
    assert track.lower[0] == pytest.approx(45.8159, abs=1e-4)


@pytest.mark.parametrize(("place", "printed"), [*enumerate(EWMA)])
def test_ewma_point(place: int, printed: float) -> None:
    """Section 6.3.2.4: each of the twenty points of the ewma with weight 0.3 from 50 (read)."""
    chart = ewma_chart(FLOW_RATES, centre=50.0, sigma=2.0539, weight=0.3)
    assert chart.track("ewma").points[place] == pytest.approx(printed, abs=0.006)


def test_ewma_limits() -> None:
    """Section 6.3.2.4: limits 52.5884 and 47.4115, no point beyond (read)."""
    chart = ewma_chart(FLOW_RATES, centre=50.0, sigma=2.0539, weight=0.3)
    assert chart.figures["upper_in_the_end"] == pytest.approx(52.5884, abs=1e-3)
    assert chart.figures["lower_in_the_end"] == pytest.approx(47.4115, abs=1e-3)
    assert chart.track("ewma").upper[-1] == pytest.approx(52.5884, abs=1e-3)
    assert chart.track("ewma").signals == ()


def test_counts() -> None:
    """Section 6.3.3.1: 400 defects on 25 wafers, mean 16, limits 28 and 4, the 24th beyond (from memory)."""
    track = count_chart(WAFER_DEFECTS, exact=False).track("count")
    assert sum(WAFER_DEFECTS) == 400
    assert (track.centre, track.upper[0], track.lower[0]) == (16.0, 28.0, 4.0)
    assert track.signals == (23,)


def test_shares() -> None:
    """Section 6.3.3.2: mean .2313 (read), limits .4102 and .0524 (from memory)."""
    track = share_chart(WAFER_CHIPS, [50] * 30, exact=False).track("share")
    assert track.centre == pytest.approx(0.2313, abs=5e-5)
    assert track.upper[0] == pytest.approx(0.4102, abs=6e-5)
    assert track.lower[0] == pytest.approx(0.0524, abs=6e-5)


def test_capability() -> None:
    """Section 6.1.6: Cp 1.0, Cpk .6667, upper .6667, lower 1.3333, off centre .3333 (read)."""
    found = capability(mean=16.0, sd=2.0, count=50, low=8.0, high=20.0)
    assert found.cp is not None
    assert found.cp.estimate == pytest.approx(1.0, abs=5e-5)
    assert found.cpk.estimate == pytest.approx(0.6667, abs=5e-5)
    assert found.toward_high == pytest.approx(0.6667, abs=5e-5)
    assert found.toward_low == pytest.approx(1.3333, abs=5e-5)
    assert found.off_centre == pytest.approx(0.3333, abs=5e-5)


@pytest.mark.parametrize(("place", "printed"), [*enumerate([0.95, 0.90, 0.8471, 0.7941, 0.7374, 0.6704])])
def test_survival(place: int, printed: float) -> None:
    """Section 8.2.1.5: the six steps of the survival of twenty units, fourteen taken off running (read)."""
    failed, running = [10, 32, 56, 98, 122, 181], [50, 100, 125, 150, *[200] * 10]
    curve = kaplan_meier([*failed, *running], [True] * 6 + [False] * 14)
    assert curve.steps[place].survival == pytest.approx(printed, abs=5e-5)


def test_weibull() -> None:
    """Section 8.4.1.3: scale 606.528, shape 1.7208, −ln L 75.135, AIC 154.27, mean 540.737, sd 323.806 (read)."""
    fit = weibull_fit([*FAILURES, *[500] * 10], [True] * 10 + [False] * 10)
    assert fit.scale.estimate == pytest.approx(606.528, abs=0.006)
    assert fit.shape.estimate == pytest.approx(1.7208, abs=5e-5)
    assert fit.negative_log_likelihood == pytest.approx(75.135, abs=5e-4)
    assert fit.aic == pytest.approx(154.27, abs=5e-3)
    assert fit.mean == pytest.approx(540.737, abs=0.006)
    assert fit.sd == pytest.approx(323.806, abs=0.006)
