"""Where the marks stand."""

import math
from itertools import combinations

import pytest

from server.plan.marks import APART, mark_places
from server.plan.space import Spot, flat
from tests.plan.cart import cart

DESIGN = cart()


def test_a_mark_stands_where_the_landing_tube_meets_the_other() -> None:
    """The cross tube lands on the right rail half the rail's diameter from its axis."""
    seam = mark_places(DESIGN, "S", 8.0)["A2"].seam
    assert seam == pytest.approx(flat(DESIGN, Spot(120, 0, 150 - 15)))


def test_a_landing_given_by_the_design_is_taken() -> None:
    """A seam on the axis itself stands at its node."""
    design = cart(('at = "x", stage = "two"', 'at = "x", stage = "two", landing_mm = 0'))
    assert mark_places(design, "S", 8.0)["A3"].seam == pytest.approx((120, 0))


def test_a_fitting_stands_part_of_the_way_along_its_member() -> None:
    """Three quarters up a post of 200 mm is 150 mm up, if there is room."""
    alone = DESIGN.model_copy(update={"joints": (DESIGN.joints[-1],)})
    assert mark_places(alone, "S", 8.0)["B1"].centre == pytest.approx((120, 150))


@pytest.mark.parametrize("radius", [4.0, 9.0, 12.0])
def test_no_two_marks_touch(radius: float) -> None:
    """Where seams crowd, marks slide along their tubes until they are apart."""
    places = mark_places(DESIGN, "S", radius)
    assert all(math.dist(a.centre, b.centre) >= APART * radius - 1e-9 for a, b in combinations(places.values(), 2))


def test_a_mark_with_room_stays_at_its_seam() -> None:
    """Nothing is moved that need not be."""
    places = mark_places(DESIGN, "S", 3.0)
    assert all(place.centre == place.seam for name, place in places.items() if name in ("A2", "A3"))


def test_a_design_may_shift_a_mark() -> None:
    """Where the rule is not good enough, the design says how far."""
    design = cart(('at = "x", stage', 'at = "x", shift_mm = [30, -5], stage'))
    moved, stood = (mark_places(d, "S", 3.0)["A3"].seam for d in (design, DESIGN))
    assert moved == pytest.approx((stood[0] + 30, stood[1] - 5))
