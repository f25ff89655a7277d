"""Heat that a lap meets where it closes."""

import math

import pytest

from server.physics.cooling_weld import TubeWeld
from server.physics.errors import UnusableInput
from server.physics.lap_heat import heat_ahead_c
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


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: heat_ahead_c(TubeWeld(100.0, 120.0, 25.0, 0.9), 0.5), "around_mm"),
        (lambda: heat_ahead_c(LAP, 0.0), "share_of_lap"),
        (lambda: heat_ahead_c(LAP, 0.5, ahead_mm=0.0), "ahead_mm"),
    ],
)
def test_what_cannot_be_is_named(call, named):
    """Three quarters, one twice, a negative pause, a flat seam, a place at the arc itself: each is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
