"""The next revision begins as the last one with its letter, its start and its reason still to be said."""

from dataclasses import dataclass
from datetime import date
from typing import Any

import pytest

from server.procedures.next_revision import begun_from, next_letter, not_a_next_one
from server.procedures.reading import read_procedure
from tests.procedures.ladder import LADDER, ladder

TODAY = date(2031, 6, 2)


@dataclass
class Begun:
    """A next revision as begun, with some words changed."""

    text: str

    def wrong(self, **changed: str) -> list[str]:
        text = self.text
        for old, new in changed.items():
            assert CHANGES[old] in text
            text = text.replace(CHANGES[old], new)
        new_one = read_procedure(text, "next")
        return not_a_next_one(new_one, ladder(), [ladder()], TODAY)


CHANGES = {
    "reason": 'reason = ""',
    "revision": 'revision = "2"',
    "replaces": 'replaces = "1"',
    "starts": "valid_from = 2031-06-03",
    "name": 'name = "LD"',
    "limit": "interpass = { high = 140",
}
GOOD = {"reason": 'reason = "The last lot of gas was better"', "limit": "interpass = { high = 130"}


@pytest.fixture
def begun() -> Begun:
    return Begun(begun_from(LADDER, ladder(), [ladder()], TODAY))


def test_it_begins_with_the_next_letter_from_tomorrow(begun: Begun):
    """Only revision, replaces, valid_from and reason differ, and the text reads as a procedure."""
    new = read_procedure(begun.text, "next")
    assert (new.revision, new.replaces, new.valid_from, new.reason) == ("2", "1", date(2031, 6, 3), "")
    assert new.limits[0].model_copy(update={"valid_from": ladder().limits[0].valid_from}) == ladder().limits[0]


@pytest.mark.parametrize(("now", "then"), [("B", "C"), ("Z", "AA"), ("1", "2"), ("C9", "C10"), ("draft", "draft2")])
def test_the_letter_after(now: str, then: str):
    """Letters and numbers go on as a shop would count them."""
    assert next_letter(now) == then


def test_one_with_a_reason_and_a_change_may_follow(begun: Begun):
    """A tighter limit with its reason is a next revision."""
    assert begun.wrong(**GOOD) == []


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"reason": 'reason = "why"'}, "reason: write why"),
        ({"revision": 'revision = "1"'}, "revision: '1' is released already"),
        ({"replaces": 'replaces = "0"'}, "replaces: '0'; this one was begun from '1'"),
        ({"starts": "valid_from = 2031-06-01"}, "valid_from: 2031-06-01 is past"),
        ({"name": 'name = "LX"'}, "name: 'LX'; a revision keeps the name 'LD'"),
        ({"limit": "interpass = { high = 140"}, "text: nothing that is asked or allowed differs"),
    ],
)
def test_what_may_not_follow_is_named_field_by_field(begun: Begun, changed: dict[str, Any], said: str):
    """Each field that is wrong is named with what is expected."""
    found = begun.wrong(**GOOD | changed)
    assert len(found) == 1
    assert said in found[0]
