"""Tells the record what was done to who gets in, and by whose hand; never the secret itself."""

import secrets
from typing import NamedTuple

from server.facts.door import DoorAct
from server.facts.moment import show_moment
from server.record.lines import HOUSE, NewLine
from server.work.telling import told_line


class Hand(NamedTuple):
    """Who does something at the door, in which role, on which device; nobody for a command on the machine."""

    by: str | None = None
    role: str | None = None
    on: str = HOUSE


BY_COMMAND = Hand()


def door_line(
    act: DoorAct,
    hand: Hand,
    at_ms: int,
    *,
    person: str | None = None,
    tablet: str | None = None,
    words: str | None = None,
) -> NewLine:
    """Make the line of one thing done to the door."""
    told = {
        "kind": "door change",
        "id": f"door-{at_ms}-{secrets.token_hex(4)}",
        "act": act,
        "at": show_moment(at_ms),
        **hand._asdict(),
        "person": person,
        "tablet": tablet,
        "words": words,
    }
    return told_line({name: value for name, value in told.items() if value is not None}, at_ms)
