"""The schema an editor completes design files by."""

import tomllib

import pytest
from jsonschema import Draft202012Validator

from server.plan.schema import design_schema
from tests.plan.cart import CART, changed

SCHEMA = design_schema()


def slips(text: str) -> list[str]:
    return [error.json_path for error in Draft202012Validator(SCHEMA).iter_errors(tomllib.loads(text))]


def test_a_good_design_has_no_slips() -> None:
    """The schema is of the draft it names, and takes what the reader takes."""
    Draft202012Validator.check_schema(SCHEMA)
    assert SCHEMA["$schema"].endswith("2020-12/schema")
    assert slips(CART) == []


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ('quarter = "q9"', 'quarter = "q8"'),
        (', quarter = "q9"', ""),
        ("mid = [120, 150]", "mid = [120]"),
        ('inside = "F"', 'inside = "X"'),
        ("wall_mm = 1.5", "wal_mm = 1.5"),
    ],
)
def test_slips_are_marked_while_typing(old: str, new: str) -> None:
    """A wrong quarter, none at all, half a node, an unknown view and a misspelt field are marked."""
    assert slips(changed(((old, new),)))
