"""Whether purge gas gets through."""

from tests.plan.cart import CART, cart, refused

HOLE = '  { member = "X", into = "P", diameter_mm = 6, joint = "A3" },\n'


def test_a_seam_between_two_tubes_without_its_hole_is_an_error_of_the_drawing() -> None:
    """Two members that hold gas meet and nothing is drilled: the joint and the hole to add are named."""
    found = refused((HOLE, ""))
    assert found[0].field == "joints[A3]"
    assert found[0].value == "P on X without a hole"
    assert 'member = "X", into = "P"' in found[0].instead


def test_a_member_with_one_hole_only_is_shut() -> None:
    """Gas that can come in but not go out purges nothing."""
    found = refused(('  { member = "P", into = "BR", diameter_mm = 4, joint = "A5" },\n', ""))
    assert [c.field for c in found] == ["members[BR]", "joints[A5]"]
    assert found[0].value == "BR with 1"


def test_the_inlet_is_a_way_in() -> None:
    """Where the gas itself comes in, one hole is enough to let it out."""
    found = refused(
        ('  { member = "P", into = "BR", diameter_mm = 4, joint = "A5" },\n', ""),
        ('"P", "BR"]\ninlet = "RL"', '"P", "BR"]\ninlet = "BR"'),
    )
    assert [c.field for c in found] == ["joints[A5]"]


def test_a_part_that_holds_no_gas_needs_no_hole() -> None:
    """The eye is solid; nothing is asked of it."""
    assert cart().members[-1].closed is False


def test_a_member_the_gas_cannot_reach_in_a_set_up_is_named() -> None:
    """Taking the cross tube out of the set-up cuts the right rail off from the inlet."""
    found = refused(
        ('members = ["RL", "RR", "X"]', 'members = ["RL", "RR"]'), ("S = 0.68, L = 0.81", "S = 0.58, L = 0.71")
    )
    assert (found[0].field, found[0].value) == ("setups[one].members", "'RR'")
    assert "from the inlet RL" in found[0].expected


def test_a_volume_that_does_not_add_up_is_refused_with_the_one_that_does() -> None:
    """A stated volume is held against bores and lengths; a litre too much is refused, rounding is not."""
    (found,) = refused(("S = 0.68, L = 0.81", "S = 1.68, L = 0.81"))
    assert found.field == "setups[one].volume_l.S"
    assert CART.splitlines()[found.line - 1].startswith("volume_l")
    assert found.expected.startswith("about 0.69 L")
    assert cart(("S = 0.68, L = 0.81", "S = 0.69, L = 0.81")).setups[0].volume_l["S"] == 0.69
