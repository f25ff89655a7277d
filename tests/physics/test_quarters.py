"""Heat met by quarters: order and pause."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from server.physics.cooling_weld import TubeWeld
from server.physics.errors import UnusableInput
from server.physics.quarters import _hottest_band, best_order, pause_for, quarter_starts_c

AROUND_MM = math.pi * 34.0
LAP = TubeWeld(100.0, 120.0, AROUND_MM, 0.9, AROUND_MM)


@pytest.mark.parametrize(
    ("order", "pause_s", "last_c"),
    [
        ((0, 2, 1, 3), 0.0, 329.0),
        ((0, 2, 1, 3), 10.0, 206.0),
        ((0, 2, 1, 3), 30.0, 110.0),
        ((0, 2, 1, 3), 60.0, 69.0),
        ((0, 1, 2, 3), 10.0, 337.0),
        ((0, 1, 2, 3), 60.0, 106.0),
    ],
)
def test_the_last_quarter_as_in_the_trial(order, pause_s, last_c):
    """The last quarter starts on metal as warm as the trial of the model found with less loss, which the band holds.

    The trial's figures are our own, held there by another solver; they took 35 W/m²K where 50 is expected here.
    """
    start = quarter_starts_c(LAP, order, pause_s)[-1]
    assert start.low < last_c < start.high * 1.02
    assert start.expected < last_c


@settings(max_examples=20)
@given(st.permutations([1, 2, 3]), st.floats(0.0, 120.0))
def test_the_first_quarter_starts_cold(rest, pause_s):
    """The first quarter starts on metal as it was, and none starts on colder."""
    starts = quarter_starts_c(LAP, (0, *rest), pause_s)
    assert starts[0] == (20.0, 20.0, 20.0)
    assert all(start.low >= 20.0 for start in starts)


def test_opposite_quarters_are_best():
    """With half a minute between quarters, going across the tube meets the least heat, far less than going round."""
    plan = best_order(LAP, 30.0)
    assert plan.order == (0, 2, 1, 3)
    round_the_tube = max(start.expected for start in quarter_starts_c(LAP, (0, 1, 2, 3), 30.0))
    assert plan.hottest_met_c.expected < round_the_tube - 30.0


@pytest.mark.parametrize("order", [(0, 2, 1, 3), (0, 1, 2, 3)])
def test_the_pause_is_the_shortest(order):
    """With the pause found the high end is under the limit, and with one second less it is not."""
    plan = pause_for(LAP, order, 150.0)
    assert plan.hottest_met_c.high <= 150.0
    assert _hottest_band(LAP, order, plan.pause_s - 1.0).high > 150.0


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: quarter_starts_c(LAP, (0, 1, 2), 10.0), "order"),
        (lambda: quarter_starts_c(LAP, (0, 1, 2, 2), 10.0), "order"),
        (lambda: quarter_starts_c(LAP, (0, 1, 2, 3), -1.0), "pause_s"),
        (lambda: quarter_starts_c(TubeWeld(100.0, 120.0, 25.0, 0.9), (0, 1, 2, 3), 1.0), "around_mm"),
        (lambda: pause_for(LAP, (0, 1, 2, 3), 20.0), "limit_c"),
    ],
)
def test_what_cannot_be_is_named(call, named):
    """Three quarters, one twice, a negative pause, a flat seam, a limit of no width: each is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
