"""What a bead may not be, what speaks against a cooling figure, and walls that meet."""

import math

import pytest

from server.physics.cooling_wall import thin_wall_cooling_s
from server.physics.cooling_weld import TubeWeld, doubts_of, meeting_wall_mm
from server.physics.errors import UnusableInput

WELD = TubeWeld(100.0, 120.0, 25.0, 0.9, math.pi * 34.0)


@pytest.mark.parametrize(
    ("numbers", "named"),
    [
        ((0.0, 120.0, 25.0, 0.9), "heat_input_j_per_mm"),
        ((100.0, 0.0, 25.0, 0.9), "travel_mm_per_min"),
        ((100.0, 120.0, 0.0, 0.9), "bead_mm"),
        ((100.0, 120.0, 25.0, math.nan), "wall_mm"),
        ((100.0, 120.0, 25.0, 0.9, 0.0), "around_mm"),
        ((100.0, 120.0, 120.0, 0.9, 100.0), "at most once round, 100 mm"),
        ((100.0, 120.0, 25.0, 0.9, None, 2000.0), "start_c"),
    ],
)
def test_welds_that_cannot_be_are_named(numbers, named):
    """No heat, no travel, no length, more than once round: each is refused by name when the weld is described."""
    with pytest.raises(UnusableInput, match=named):
        TubeWeld(*numbers)


def test_doubts_are_named():
    """A thick wall and a bead hardly longer than its pool are each said in words; a thin tube's bead is not doubted."""
    assert doubts_of(WELD, 427.0) == ()
    assert "too thick" in doubts_of(TubeWeld(100.0, 120.0, 25.0, 3.5), 427.0)[0]
    assert "its pool" in doubts_of(TubeWeld(100.0, 120.0, 9.0, 0.9), 427.0)[0]


def test_three_sheets_hold_less_than_two():
    """A tube landed on another counts half as much wall again, and without loss cools in four ninths of the time."""
    two, three = meeting_wall_mm([0.9, 0.9]), meeting_wall_mm([0.9, 0.9, 0.9])
    assert thin_wall_cooling_s(100.0, three, 427.0) / thin_wall_cooling_s(100.0, two, 427.0) == pytest.approx(4.0 / 9.0)
    with pytest.raises(UnusableInput, match="walls_mm"):
        meeting_wall_mm([0.9])
