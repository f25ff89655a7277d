"""Heat met by a lap and by quarters, and the length that is still hot behind the torch."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from server.physics.cooling_weld import TubeWeld
from server.physics.errors import UnusableInput
from server.physics.hot_length import hot_length_mm
from server.physics.lap_heat import heat_ahead_c
from server.physics.quarters import _hottest_band, best_order, pause_for, quarter_starts_c
from tests.physics.tube_by_differences import DifferenceTube

AROUND_MM = math.pi * 34.0
LAP = TubeWeld(100.0, 120.0, AROUND_MM, 0.9, AROUND_MM)


@pytest.mark.parametrize("share", [0.5, 0.9, 1.0])
def test_metal_ahead_as_by_differences(share):
    """Ten millimetres ahead of the torch the metal is as warm as the independent solver says, to 1 % or 1 K."""
    tube = DifferenceTube(0.9, AROUND_MM, 15.0, 2.9e6, 50.0)
    tube.run(share * AROUND_MM / 2.0, lambda now_s: (200.0, 2.0 * now_s))
    (rise,) = tube.seam([2.0 * tube.at_s + 10.0])
    ahead = heat_ahead_c(LAP, min(1.0, tube.at_s * 2.0 / AROUND_MM))
    assert ahead.expected - 20.0 == pytest.approx(rise, rel=0.01, abs=1.0)
    assert ahead.low < ahead.expected < ahead.high


def test_a_lap_meets_its_own_beginning():
    """Half way round the torch still runs on cool metal; where the lap closes, whatever the metal, on warm."""
    cool, closing = heat_ahead_c(LAP, 0.5), heat_ahead_c(LAP, 1.0)
    assert cool.expected < 70.0
    assert closing.low > cool.high + 50.0


def test_hot_length_as_by_differences():
    """The length still hot behind the torch at the end of a lap is the independent solver's, to a millimetre."""
    tube = DifferenceTube(0.9, AROUND_MM, 15.0, 2.9e6, 50.0)
    tube.run(AROUND_MM / 2.0, lambda now_s: (200.0, 2.0 * now_s))
    places = [0.25 * k for k in range(4, 4 * 100)]
    rises = tube.seam([AROUND_MM - place for place in places])
    hot_mm = next(place for place, rise in zip(places, rises, strict=True) if rise < 407.0)
    assert hot_length_mm(LAP, 427.0).expected == pytest.approx(hot_mm, abs=1.0)


def test_a_short_bead_is_hot_from_end_to_end():
    """Behind a bead of 25 mm all of it is hot when the arc goes out."""
    assert hot_length_mm(TubeWeld(100.0, 120.0, 25.0, 0.9), 427.0).low >= 25.0


def test_a_hot_lap_on_a_small_tube_is_hot_all_round():
    """When nothing has cooled, the hot length is the whole way round."""
    assert hot_length_mm(TubeWeld(150.0, 300.0, 50.0, 0.6, 50.0), 300.0).low == 50.0


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
        (lambda: heat_ahead_c(TubeWeld(100.0, 120.0, 25.0, 0.9), 0.5), "around_mm"),
        (lambda: heat_ahead_c(LAP, 0.0), "share_of_lap"),
        (lambda: heat_ahead_c(LAP, 0.5, ahead_mm=0.0), "ahead_mm"),
        (lambda: pause_for(LAP, (0, 1, 2, 3), 20.0), "limit_c"),
        (lambda: hot_length_mm(LAP, math.nan), "limit_c"),
    ],
)
def test_what_cannot_be_is_named(call, named):
    """Three quarters, one twice, a negative pause, a flat seam, a place at the arc itself: each is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
