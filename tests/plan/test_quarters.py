"""The four arcs of a mark."""

import math

import pytest

from server.plan.picture_parts import Point
from server.plan.quarters import quarter_arcs
from tests.plan.cart import cart

JOINTS = {joint.id: joint for joint in cart().joints}
UP, RIGHT, DOWN, LEFT = (0.0, 1.0), (1.0, 0.0), (0.0, -1.0), (-1.0, 0.0)


def middles(joint: str) -> dict[str, Point]:
    arcs = quarter_arcs(JOINTS[joint], (0, 0), 1.0)
    return {arc.quarter: arc.points[len(arc.points) // 2] for arc in arcs}


@pytest.mark.parametrize(
    ("joint", "expected"),
    [
        ("A1", {"q12": UP, "q3": RIGHT, "q6": DOWN, "q9": LEFT}),
        ("A3", {"q12": RIGHT, "q3": DOWN, "q6": LEFT, "q9": UP}),
    ],
)
def test_twelve_points_where_the_design_says(joint: str, expected: dict[str, Point]) -> None:
    """Up for most joints, forward on an upright tube; three follows clockwise."""
    found = middles(joint)
    assert {quarter: (round(x, 9), round(y, 9)) for quarter, (x, y) in found.items()} == expected


def test_arcs_lie_on_the_circle_and_leave_a_gap() -> None:
    """Each arc covers less than a quarter, so that four closed ones can still be told apart."""
    arcs = quarter_arcs(JOINTS["A1"], (5, 5), 3.0)
    points = [point for arc in arcs for point in arc.points]
    assert all(math.dist(point, (5, 5)) == pytest.approx(3.0) for point in points)
    for arc, after in zip(arcs, (*arcs[1:], arcs[0]), strict=True):
        assert math.dist(arc.points[-1], after.points[0]) > 0.5


def test_a_fitting_is_one_ring() -> None:
    """What is not welded in quarters closes as a whole."""
    (ring,) = quarter_arcs(JOINTS["B1"], (0, 0), 2.0)
    assert ring.points[0] == pytest.approx(ring.points[-1])
