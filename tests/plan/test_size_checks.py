"""What is said by size is said for every size."""

from tests.plan.cart import refused


def test_a_size_left_out_is_said() -> None:
    """A length given for one of two sizes is not enough."""
    (found,) = refused(
        (
            'title = "left rail", metal = "3-2.5", od_mm = 30, wall_mm = 1, length_mm = { S = 474, L = 574 }',
            'title = "left rail", metal = "3-2.5", od_mm = 30, wall_mm = 1, length_mm = { S = 474 }',
        )
    )
    assert (found.field, found.value) == ("members[RL].length_mm", "given for S")
    assert found.expected == "a value for each size: S, L"


def test_a_size_the_design_does_not_come_in_is_said() -> None:
    """A node for a size nobody builds is a slip."""
    (found,) = refused(("c_l = { S = [300, 200, -150],", "c_l = { S = [300, 200, -150], M = [1, 1],"))
    assert found.field == "nodes.c_l"
    assert "M" in found.value


def test_a_volume_for_one_size_only_is_said() -> None:
    """A stated volume is stated for all sizes or for none."""
    (found,) = refused(("volume_l = { S = 0.68, L = 0.81 }", "volume_l = { S = 0.68 }"))
    assert found.field == "setups[one].volume_l"
