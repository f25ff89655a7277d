"""Shares of faulty joints in time order."""

import pytest

from server.statistics.errors import UnusableInput
from server.statistics.share_chart import share_chart

FRAMES = [0, 1, 0, 2, 0, 3, 0, 0]


def test_exact_limits_do_not_cry_wolf() -> None:
    """Of frames of 8 joints at 3 %, two faults signal under three sigmas but only three under exact limits."""
    exact = share_chart(FRAMES, [8] * 8, usual_rate=0.03)
    classical = share_chart(FRAMES, [8] * 8, usual_rate=0.03, exact=False)
    assert exact.track("share").signals == (5,)
    assert classical.track("share").signals == (3, 5)


def test_each_group_has_its_own_limit() -> None:
    """A small group is allowed a larger share than a large one."""
    upper = share_chart([1, 4], [8, 200], usual_rate=0.03).track("share").upper
    assert upper[0] == 2 / 8
    assert upper[1] is not None
    assert upper[1] < 0.08


def test_too_few_faults_signal_as_well() -> None:
    """Where a fifth is usual, two faults of 50 signal (chance 0.13 %) and three do not (0.57 %)."""
    assert share_chart([2, 3], [50, 50], usual_rate=0.2).track("share").signals == (0,)


@pytest.mark.parametrize("faults", [0, 8])
def test_none_or_all_have_no_limits(faults: int) -> None:
    """Where none or all were faulty there is nothing to set limits from, and nothing signals."""
    track = share_chart([faults] * 3, [8] * 3).track("share")
    assert track.upper == (None, None, None)
    assert track.signals == ()


def test_rate_over_all_groups() -> None:
    """The centre is all faults over all joints, not the mean of the shares."""
    chart = share_chart([1, 0], [10, 30])
    assert chart.track("share").centre == 1 / 40
    assert chart.figures == {"rate": 1 / 40, "seen": 40}


def test_inputs() -> None:
    """A rate in percent is refused by name."""
    with pytest.raises(UnusableInput, match="usual_rate is 3"):
        share_chart([1], [8], usual_rate=3)
