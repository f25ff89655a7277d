"""What a chart hands to whoever draws it."""

import dataclasses

import pytest

from server.statistics.chart import ControlChart, Track, level
from server.statistics.errors import UnusableInput

POINTS = (1.0, None, 5.0, -5.0, 3.0, 0.0, 3.0, 9.0)
TRACK = Track("share", POINTS, 1.0, (*level(0.0, POINTS[:7]), None), (*level(3.0, POINTS[:6]), 2.0, None))


def test_signals() -> None:
    """Points beyond either limit signal; points on it, points not there and places without limits do not."""
    assert TRACK.signals == (2, 3, 6)


def test_a_track_is_asked_for_by_name() -> None:
    """A chart gives the track of a name, and else lists those it has."""
    chart = ControlChart("share", (TRACK,))
    assert chart.track("share") is TRACK
    with pytest.raises(UnusableInput, match="one of share"):
        chart.track("range")


def test_charts_are_frozen() -> None:
    """Nobody changes a chart after it was reckoned."""
    with pytest.raises(dataclasses.FrozenInstanceError):
        TRACK.centre = 2.0  # type: ignore[misc]
