"""Volumes inside members and set-ups."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.facts.design import Member
from server.plan.volumes import member_volume_l, setup_volume_l
from tests.plan.cart import cart


@given(st.floats(5, 60), st.floats(0.5, 2), st.floats(10, 2000))
def test_a_tube_holds_bore_area_times_length(od_mm: float, wall_mm: float, long_mm: float) -> None:
    """The bore is the outer diameter less two walls."""
    tube = Member(id="T", title="", metal="", od_mm=od_mm, wall_mm=wall_mm, length_mm={"M": long_mm})
    bore_cm = (od_mm - 2 * wall_mm) / 10
    assert member_volume_l(tube, "M") == pytest.approx(math.pi * (bore_cm / 2) ** 2 * long_mm / 10 / 1000)


def test_a_solid_part_holds_nothing() -> None:
    """A plate or solid part adds no gas."""
    post = cart().members[3]
    assert member_volume_l(post, "S") > 0
    assert member_volume_l(post.model_copy(update={"closed": False}), "S") == 0


def test_a_set_up_holds_its_members_and_no_others() -> None:
    """The first set-up is the two rails and the cross tube."""
    design = cart()
    volumes = {member.id: member_volume_l(member, "L") for member in design.members}
    assert setup_volume_l(design, design.setups[0], "L") == pytest.approx(volumes["RL"] + volumes["RR"] + volumes["X"])
