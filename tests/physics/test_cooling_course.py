"""The hottest metal against time: it meets the hold time, only ever cools, and is refused before the arc is out."""

import pytest

from server.physics.cooling_course import hottest_after_c, hottest_rise_k
from server.physics.cooling_metal import TITANIUM_TUBE
from server.physics.cooling_weld import TubeWeld
from server.physics.errors import UnusableInput
from server.physics.hold_time import hold_time_s
from tests.physics.tube_by_differences import DifferenceTube

AROUND_MM = 106.8
WELD = TubeWeld(100.0, 120.0, 25.0, 0.9, 106.8)


def test_the_course_crosses_the_limit_at_the_hold_time():
    """At the expected, lowest and highest hold time the expected, lowest and highest metal is at the limit."""
    hold = hold_time_s(WELD, 427.0)
    expected, low, high = hottest_after_c(WELD, [hold.expected, hold.low, hold.high])
    assert expected.expected == pytest.approx(427.0, abs=0.5)
    assert low.low == pytest.approx(427.0, abs=0.5)
    assert high.high == pytest.approx(427.0, abs=0.5)


def test_it_is_as_by_differences():
    """Ten seconds after the arc the hottest metal is as hot as the independent solver has it, to 2 %."""
    tube = DifferenceTube(0.9, AROUND_MM, 15.0, 2.9e6, 50.0)
    tube.run(12.5, lambda now_s: (200.0, 2.0 * now_s))
    tube.run(22.5, lambda _: (0.0, 0.0))
    (band,) = hottest_after_c(WELD, [10.0])
    assert band.expected - 20.0 == pytest.approx(tube.hottest(), rel=0.02)


def test_it_only_cools_and_ends_at_the_metal_as_it_was():
    """From moment to moment the hottest metal is cooler, and in the end as warm as the tube was at first."""
    warm = TubeWeld(100.0, 120.0, 25.0, 0.9, 106.8, start_c=60.0)
    course = [band.expected for band in hottest_after_c(warm, [2.0, 5.0, 20.0, 80.0, 2000.0])]
    assert course == sorted(course, reverse=True)
    assert course[-1] == pytest.approx(60.0, abs=0.1)


def test_more_heat_is_more_rise():
    """Twice the heat input is twice the rise, as the formula has no latent heat."""
    twice = TubeWeld(200.0, 120.0, 25.0, 0.9, 106.8)
    once_k, twice_k = (hottest_rise_k(weld, 20.0, TITANIUM_TUBE) for weld in (WELD, twice))
    assert twice_k == pytest.approx(2.0 * once_k, rel=1e-9)


@pytest.mark.parametrize("moment", [0.0, -1.0, float("nan")])
def test_a_moment_before_the_arc_is_out_is_refused(moment):
    """A moment that is not after the arc is refused by name."""
    with pytest.raises(UnusableInput, match="after_s"):
        hottest_after_c(WELD, [moment])
