"""A set-up as a network for the purge formulas."""

import pytest

from server.plan.purge import open_holes, purge_network, reached_from, setup_of
from server.plan.volumes import member_volume_l
from tests.plan.cart import cart


def test_the_network_has_the_set_ups_members_with_their_volumes() -> None:
    """Each member once, with its volume and length in that size."""
    design = cart()
    network = purge_network(design, "L", design.setups[0], flow_l_per_min=6.0, oxygen_ppm=2.0)
    assert [member.name for member in network.members] == ["RL", "RR", "X"]
    assert network.members[0].volume_l == member_volume_l(design.members[0], "L")
    assert network.members[2].length_mm == 270
    (inlet,) = network.inlets
    assert (inlet.member, inlet.flow_l_per_min, inlet.oxygen_ppm) == ("RL", 6.0, 2.0)


def test_holes_to_members_outside_are_shut_and_outlets_are_open() -> None:
    """The post's and the brace's holes are taped in the first set-up; the right rail's cap lets gas out."""
    design = cart()
    holes = [(h.member, h.into, h.diameter_mm) for h in purge_network(design, "S", design.setups[0], 6.0).holes]
    assert holes == [("RL", "X", 8), ("RR", "X", 8), ("RR", None, 5)]
    assert len(open_holes(design, design.setups[1])) == 5


def test_a_hole_goes_through_the_wall_of_the_member_it_is_drilled_in() -> None:
    """The hole into the post is drilled in the cross tube's wall."""
    design = cart()
    network = purge_network(design, "S", design.setups[1], 6.0)
    assert {hole.into: hole.wall_mm for hole in network.holes if hole.member in ("X", "P")} == {
        "P": 0.9,
        "BR": 1.5,
        None: 1.5,
    }


def test_gas_spreads_through_holes_both_ways() -> None:
    """From the right rail everything is reached, also against the order in which holes are written."""
    design = cart()
    assert reached_from("RR", open_holes(design, design.setups[1])) == {"RL", "RR", "X", "P", "BR"}
    assert reached_from("RR", []) == {"RR"}


@pytest.mark.parametrize(("joint", "setup"), [("A1", "one"), ("A5", "two"), ("B1", "two")])
def test_a_joint_is_welded_in_the_set_up_of_its_stage(joint: str, setup: str) -> None:
    """A later stage may use the set-up of an earlier one where the design says so."""
    found = setup_of(cart(), joint)
    assert found is not None
    assert found.id == setup


def test_a_set_up_that_names_a_joint_goes_before_its_stage() -> None:
    """A joint may need the set-up of another stage, and the set-up says so."""
    found = setup_of(cart(("volume_l = { S = 0.68", 'joints = ["A3"]\nvolume_l = { S = 0.68')), "A3")
    assert found is not None
    assert found.id == "one"


def test_a_stage_without_a_set_up_has_none() -> None:
    """Nothing is made up where the design names no set-up."""
    assert setup_of(cart(('later_stages = ["three"]\n', "")), "B1") is None
