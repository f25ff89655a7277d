"""The exponentially weighted moving average."""

import pytest

from server.statistics.errors import UnusableInput
from server.statistics.ewma import ewma_chart


def test_weight_one_is_the_readings() -> None:
    """With weight 1 nothing is remembered: the points are the readings, the limits three sigmas."""
    track = ewma_chart([1.0, 4.0, -2.0], centre=1.0, sigma=0.5, weight=1.0).track("ewma")
    assert track.points == (1.0, 4.0, -2.0)
    assert track.upper == (2.5, 2.5, 2.5)
    assert track.signals == (1, 2)


def test_limits_widen() -> None:
    """The first limit is that of one reading at its weight, and each later one is wider."""
    track = ewma_chart([0.0] * 10, centre=0.0, sigma=1.0, weight=0.2).track("ewma")
    assert track.upper[0] == pytest.approx(3.0 * 0.2)
    widths = [upper for upper in track.upper if upper is not None]
    assert widths == sorted(widths)
    assert len(set(widths)) == 10


def test_no_limit_where_no_reading_can_be() -> None:
    """Where the limits widen below the least possible reading the lower one is left out; the upper one stands."""
    chart = ewma_chart([2.0] * 5, centre=2.0, sigma=3.0, least=0.0)
    assert chart.track("ewma").lower == (None,) * 5
    assert None not in chart.track("ewma").upper
    assert "No reading can lie below 0" in chart.cannot_tell[-1]
    assert ewma_chart([2.0] * 5, 2.0, 0.1, least=0.0) == ewma_chart([2.0] * 5, 2.0, 0.1)


def test_start() -> None:
    """The average may start elsewhere than at the centre."""
    assert ewma_chart([0.0], 0.0, 1.0, weight=0.25, start=8.0).track("ewma").points == (6.0,)


@pytest.mark.parametrize("weight", [0.0, -0.1, 1.5])
def test_weight_is_a_share(weight: float) -> None:
    """Weights of nothing and of more than everything are refused."""
    with pytest.raises(UnusableInput, match="weight is"):
        ewma_chart([1.0], 0.0, 1.0, weight=weight)


def test_it_says_how_late_it_is() -> None:
    """At weight 0.2 the last 4 readings carry half the weight, and the chart says so."""
    assert "the newest 4 of the readings" in ewma_chart([1.0], 0.0, 1.0).cannot_tell[0]
