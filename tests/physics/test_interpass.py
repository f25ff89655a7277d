"""Where interpass temperature is measured."""

import pytest

from server.physics.errors import UnusableInput
from server.physics.interpass import measuring_distance_mm


def test_no_gap_below_the_ceiling():
    """The distance grows with the wall up to 50 mm, reached at 12.5 mm of wall."""
    assert [measuring_distance_mm(wall) for wall in (0.9, 12.5, 12.6)] == pytest.approx([3.6, 50.0, 50.0])


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: measuring_distance_mm(0.0), "wall_mm"),
    ],
)
def test_what_cannot_be_is_named(call, named):
    """No wall is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
