"""The length that is still hot behind the torch."""

import math

import pytest

from server.physics.cooling_weld import TubeWeld
from server.physics.errors import UnusableInput
from server.physics.hot_length import hot_length_mm
from tests.physics.tube_by_differences import DifferenceTube

AROUND_MM = math.pi * 34.0
LAP = TubeWeld(100.0, 120.0, AROUND_MM, 0.9, AROUND_MM)


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
    ("call", "named"),
    [
        (lambda: hot_length_mm(LAP, math.nan), "limit_c"),
    ],
)
def test_what_cannot_be_is_named(call, named):
    """A limit that is no number is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
