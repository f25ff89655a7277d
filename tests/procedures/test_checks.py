"""What is wrong with a procedure as a whole."""

from tests.procedures.ladder import ladder, refused

REPAIR = {'joint_kind = "rung on rail"': 'joint_kind = "repair"\nstage = "repair"'}


def test_a_repair_procedure_says_what_it_repairs_and_who_signs() -> None:
    """A repair without kinds of joint and without signatures gets both complaints."""
    found = refused(REPAIR)
    assert {c.field for c in found} == {"repairs", "approvals"}
    assert all(c.value == "missing" for c in found)


def test_a_repair_procedure_with_both_is_taken() -> None:
    """The first repair may be signed by one role and the second by two."""
    more = '\nrepairs = ["rung on rail"]\napprovals = [["quality lead"], ["quality lead", "owner"]]'
    old, new = next(iter(REPAIR.items()))
    read = ladder(**{old: new + more})
    assert read.stage == "repair"
    assert read.approvals == (("quality lead",), ("quality lead", "owner"))


def test_ranges_are_only_held_against_each_other_when_their_units_are_right() -> None:
    """A wrong unit is said alone; it does not drag a wrong range behind it."""
    found = refused({"low = 60, high = 90": "low = 1, high = 2", '"CFH"': '"psi"'})
    assert [c.field for c in found] == ["limits.torch_flow.unit"]
