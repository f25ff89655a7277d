"""Names that point nowhere."""

import pytest

from tests.plan.cart import refused

SLIPS = [
    ('parts = ["P", "X"]', 'parts = ["PP", "X"]', "joints[A3].parts", "'PP'", "Write P "),
    ('at = "x", stage', 'at = "y", stage', "joints[A3].at", "'y'", "Add the node"),
    ('between = ["x", "top"]', 'between = ["x", "topp"]', "members[P].between", "'topp'", "Write top "),
    ('seam = "A1"', 'seam = "A11"', "covers[1].seam", "'A11'", "Write A1 "),
    ('by = "A4"', 'by = "Z"', "covers[1].by", "'Z'", "Add the joint"),
    ('by = "A4"', 'by = "A1"', "covers[1].by", "'A1'", "what hides it"),
    ('quarter = "q9"', 'quarter = "q8"', "covers[1].quarter", "'q8'", "Name the quarter"),
    ('step = "C1"', 'step = "C11"', "needs[1].step", "'C11'", "Write C1 "),
    ('first = ["A2:finished"]', 'first = ["A2:done"]', "needs[3].first", "'A2:done'", "A2:finished"),
    ('first = ["A2:finished"]', 'first = ["A22:finished"]', "needs[3].first", "'A22'", "Write A2 "),
    ('member = "X", into = "P"', 'member = "X", into = "PO"', "holes[3]", "'PO'", "Write P "),
    ('diameter_mm = 6, joint = "A3"', 'diameter_mm = 6, joint = "A33"', "holes[3].joint", "'A33'", "Write A3 "),
    ('members = ["RL", "RR", "X"]\n', 'members = ["RL", "RR", "Y"]\n', "setups[one].members", "'Y'", "Add the member"),
    ("volume_l = { S", 'joints = ["A33"]\nvolume_l = { S', "setups[one].joints", "'A33'", "Write A3 "),
    ('order = ["A2"', 'order = ["A22"', "order", "'A22'", "Write A2 "),
    ('at = "P", part_way', 'at = "eye", part_way', "joints[B1].at", "'eye'", "Add the member"),
    ("wall_mm = 1.5", "wall_mm = 10", "members[P].wall_mm", "10", "closed = false"),
]


@pytest.mark.parametrize(("old", "new", "field", "value", "instead"), SLIPS)
def test_a_name_nothing_bears_is_said(old: str, new: str, field: str, value: str, instead: str) -> None:
    """The field, the name that was met, and the one that was probably meant."""
    found = refused((old, new))
    assert (found[0].field, found[0].value) == (field, value)
    assert instead in found[0].instead


def test_the_names_that_exist_are_listed() -> None:
    """Who mistypes a joint reads which joints there are."""
    (found,) = refused(('by = "A4"', 'by = "Z"'))
    assert found.expected == "a joint of this design: A1, A2, A3, A4, A5, B1"


def test_an_inlet_outside_its_set_up_is_refused() -> None:
    """Gas cannot come in where the set-up has no member."""
    (found,) = refused(('members = ["RL", "RR", "X"]\ninlet = "RL"', 'members = ["RL", "RR", "X"]\ninlet = "P"'))
    assert (found.field, found.value) == ("setups[one].inlet", "'P'")


def test_a_name_borne_twice_is_said_once() -> None:
    """Two members of one name cannot be told apart."""
    found = refused(('id = "RR", title', 'id = "RL", title'))
    assert found[0].field == "members[RL].id"
    assert found[0].expected == "a name of its own"
