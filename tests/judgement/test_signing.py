"""Who may sign what."""

from typing import Any

import pytest

from server.facts.deciding import Signature
from server.judgement.signing import what_is_wrong_with


def signature(person: str, role: str, both: bool = False) -> Signature:
    told = {"person": person, "role": role, "at": "2026-01-01T00:00:00Z", "meaning": "approved", "shown_sha256": "00"}
    return Signature.model_validate(told | {"both_roles_one_person": both})


LEAD, OWNER = signature("Q", "quality lead"), signature("O", "owner")


@pytest.mark.parametrize(
    ("choice", "signed", "complaint"),
    [("accept", (LEAD,), None),
     ("accept", (signature("W", "welder"),), "signed as welder"),
     ("use as is", (LEAD,), "still to sign: owner"),
     ("use as is", (LEAD, OWNER), None),
     ("repair", (OWNER,), "still to sign: quality lead"),
     ("accept", (), "nobody signed"),
     ("use as is", (signature("O", "owner"), signature("O", "quality lead")), "the record must say so"),
     ("use as is", (signature("O", "owner", True), signature("O", "quality lead", True)), None)],
)
def test_roles(choice: Any, signed: tuple[Signature, ...], complaint: str | None):
    """Use as is and repair need two roles; one person in both says so on each signature."""
    wrong = what_is_wrong_with(choice, signed, frozenset(), "the reason", concession="CN-1")

    assert wrong == [] if complaint is None else complaint in " ".join(wrong)


def test_one_role_is_enough_where_the_repair_procedure_says_so():
    """As many roles sign a repair as its own procedure asks."""
    assert what_is_wrong_with("repair", (LEAD,), frozenset(), "first repair", frozenset({"quality lead"})) == []


def test_nobody_decides_on_their_own_work():
    """A lead who welded the joint does not decide about it, unless the record says that one person is both."""
    assert "own work" in what_is_wrong_with("accept", (LEAD,), frozenset({"Q"}), "looks fine")[0]
    assert what_is_wrong_with("accept", (signature("Q", "quality lead", True),), frozenset({"Q"}), "alone here") == []


@pytest.mark.parametrize("reason", ["", "  ", "ok"])
def test_no_empty_reason(reason: str):
    """A decision without a reason is refused, and so is a concession use that names none."""
    assert "reason is empty" in what_is_wrong_with("accept", (LEAD,), frozenset(), reason)[0]
    assert "names" not in what_is_wrong_with("accept", (LEAD,), frozenset(), "looked and measured")
    assert "needs a concession" in what_is_wrong_with("use as is", (LEAD, OWNER), frozenset(), "light tint only")[0]
