"""The lines of the side view."""

import math

import pytest

from server.facts.design import Member
from server.plan.tubes import tube_lines
from tests.plan.cart import cart


def test_what_stands_behind_is_drawn_first() -> None:
    """The left rail lies behind the right one, so it is drawn before it; a part without nodes is not drawn."""
    drawn = [line.member for line in tube_lines(cart(), "S")]
    assert drawn == ["RL", "BR", "X", "P", "RR"]


def test_a_line_is_as_wide_as_its_tube() -> None:
    """Widths are outer diameters, so that a stay looks thinner than a down tube."""
    assert {line.member: line.width_mm for line in tube_lines(cart(), "S")}["BR"] == 12


def test_a_tube_seen_end_on_is_a_circle_of_its_diameter() -> None:
    """A shell with one node is drawn as a ring around it."""
    design = cart()
    shell = Member(id="S", title="shell", metal="", od_mm=40, wall_mm=2, length_mm={}, between=("mid",))
    (ring,) = (line for line in tube_lines(design.model_copy(update={"members": (shell,)}), "S"))
    assert ring.closed
    assert all(math.dist(point, (120, 150)) == pytest.approx(20) for point in ring.points)


def test_a_plate_is_an_outline_and_a_hub_has_tabs() -> None:
    """A gusset keeps its corners; a plate at one node reaches out to what lands on it."""
    design = cart()
    gusset = Member(
        id="G", title="", metal="", od_mm=1, wall_mm=1, length_mm={}, between=("x", "mid", "b_l"), shape="plate"
    )
    hub = Member(id="P", title="", metal="", od_mm=40, wall_mm=1, length_mm={}, between=("mid",), shape="plate")
    changed = design.model_copy(
        update={"members": (gusset, hub, *(m for m in design.members if m.id in ("BR", "RL", "RR", "X")))}
    )
    lines = [line for line in tube_lines(changed, "S") if line.member in ("G", "P")]
    outline = next(line for line in lines if line.member == "G")
    (tab,) = (line for line in lines if line.member == "P")
    assert outline.closed
    assert len(outline.points) == 3
    assert list(tab.points[0]) == [120, 150]
    assert math.dist(*tab.points) == pytest.approx(20)
