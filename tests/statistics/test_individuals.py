"""Single readings and their moving range."""

import pytest

from server.statistics.individuals import individuals_chart
from server.statistics.series import TooFewPoints

READINGS = [12.0, 11.0, 13.0, 12.0, 12.0, 19.0]


def test_figures_by_hand() -> None:
    """Mean, mean range and limits of five readings are those reckoned by hand."""
    chart = individuals_chart(READINGS[:5])
    track = chart.track("individuals")
    assert chart.figures == {"mean": 12.0, "mean_range": 1.0, "sigma": 1.0 / 1.128}
    assert track.upper[0] == pytest.approx(12.0 + 3.0 / 1.128)
    assert track.lower[0] == pytest.approx(12.0 - 3.0 / 1.128)
    assert individuals_chart([0.0, 2.0]).track("moving range").upper == (2.0 * 3.267, 2.0 * 3.267)


def test_baseline_sets_the_limits() -> None:
    """A late jump neither widens the limits nor moves the centre when the baseline lies before it."""
    chart = individuals_chart(READINGS, baseline=5)
    assert chart.track("individuals").centre == 12.0
    assert chart.track("individuals").signals == (5,)
    assert chart.track("moving range").signals == (5,)
    assert individuals_chart(READINGS).track("individuals").centre > 12.0


def test_no_limit_where_no_reading_can_be() -> None:
    """A lower limit below the least possible reading is left out and that is said; one above it stays, unsaid."""
    wide, bounded = individuals_chart([1.0, 9.0, 2.0]), individuals_chart([1.0, 9.0, 2.0], least=0.0)
    assert (wide.track("individuals").lower[0] or 0.0) < 0.0
    assert bounded.track("individuals").lower == (None, None, None)
    assert bounded.track("individuals").upper == wide.track("individuals").upper
    assert "No reading can lie below 0" in bounded.cannot_tell[-1]
    narrow = individuals_chart(READINGS[:5], least=0.0)
    assert narrow == individuals_chart(READINGS[:5])


def test_points_keep_their_places() -> None:
    """Each track has one point per reading; the first moving range is not there."""
    chart = individuals_chart(READINGS)
    assert chart.track("individuals").points == tuple(READINGS)
    assert chart.track("moving range").points == (None, 1.0, 2.0, 1.0, 0.0, 7.0)


def test_equal_readings_have_no_limits() -> None:
    """Readings all alike give a line without limits or signals, and the chart says why."""
    chart = individuals_chart([20.0] * 30)
    assert chart.track("individuals").upper == (None,) * 30
    assert chart.track("individuals").signals == ()
    assert "too coarse" in chart.cannot_tell[0]


def test_twenty_points_are_enough() -> None:
    """Nineteen readings are mentioned as few, twenty are not."""
    assert "rests on 19 points" in individuals_chart(range(19)).cannot_tell[0]
    assert "rests on" not in individuals_chart(range(20)).cannot_tell[0]


def test_it_says_what_it_cannot_tell() -> None:
    """Few readings are mentioned, many are not, and no chart calls a joint sound."""
    assert "rests on 6 points" in " ".join(individuals_chart(READINGS).cannot_tell)
    many = " ".join(individuals_chart(READINGS * 4).cannot_tell)
    assert "rests on" not in many
    assert "not that the joint is sound" in many


@pytest.mark.parametrize(("readings", "baseline"), [([1.0], None), (READINGS, 1)])
def test_too_few(readings: list[float], baseline: int | None) -> None:
    """One reading, or a baseline of one, cannot be charted."""
    with pytest.raises(TooFewPoints):
        individuals_chart(readings, baseline)
