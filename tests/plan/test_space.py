"""Centre lines in space and their place in the picture."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.plan.space import Spot, along, centre_line, flat, length_mm, rounded, spot
from tests.plan.cart import cart

DESIGN = cart()
RAIL = DESIGN.members[0]


def test_a_node_without_depth_stands_in_the_middle_plane() -> None:
    """Only what the design sets to the side stands there."""
    assert spot(DESIGN, "S", "mid") == (120, 150, 0)
    assert spot(DESIGN, "L", "c_r") == (300, 300, 150)


def test_depth_moves_a_point_by_the_view() -> None:
    """What stands to the right is drawn forward and down by the design's own factors."""
    assert flat(DESIGN, Spot(10, 20, 100)) == (40, -20)


def test_a_bent_tube_is_rounded_at_its_bend_radius() -> None:
    """A quarter turn of radius 60: 240 straight, 94.2 arc, 140 straight; Pappus' length of the centre line."""
    line = centre_line(DESIGN, "S", RAIL)
    assert length_mm(line) == pytest.approx(240 + math.pi / 2 * 60 + 140, rel=2e-3)
    assert min(math.dist(at, (300, 0, -150)) for at in line) == pytest.approx(60 * (math.sqrt(2) - 1), rel=1e-6)


angles = st.floats(0.5, 2.8)


@given(angles, angles, st.floats(5, 80))
def test_every_point_of_a_bend_is_one_radius_from_its_middle(turn: float, tilt: float, radius: float) -> None:
    """However a corner lies in space, the arc is round, starts along one leg and ends along the other."""
    corner = Spot(3, -2, 7)
    before = Spot(corner.x + 500, corner.y, corner.z)
    way = (math.cos(turn), math.sin(turn) * math.cos(tilt), math.sin(turn) * math.sin(tilt))
    after = Spot(*(c + 500 * w for c, w in zip(corner, way, strict=True)))
    arc = rounded(before, corner, after, radius)
    tangent = radius / math.tan(turn / 2)
    assert math.dist(arc[0], corner) == pytest.approx(tangent, rel=1e-6)
    assert math.dist(arc[-1], corner) == pytest.approx(tangent, rel=1e-6)
    assert length_mm(arc) == pytest.approx(radius * (math.pi - turn), rel=4e-3)
    assert math.dist(arc[-1], after) == pytest.approx(500 - tangent, rel=1e-4)


def test_a_corner_that_runs_straight_on_needs_no_bend() -> None:
    """Three nodes in a row are a straight tube."""
    assert rounded(Spot(0, 0, 0), Spot(1, 0, 0), Spot(2, 0, 0), 50) == [Spot(1, 0, 0)]


def test_a_point_along_a_line_is_that_far_from_its_start() -> None:
    """Past a corner the rest is gone along the next leg; past the end, straight on."""
    line = [Spot(0, 0, 0), Spot(10, 0, 0), Spot(10, 10, 0)]
    assert along(line, 4) == (4, 0, 0)
    assert along(line, 13) == (10, 3, 0)
    assert along(line, 25) == (10, 15, 0)
    assert along(line, -5) == (-5, 0, 0)
