"""The history of the door on a page: what was done to who gets in, newest first, by whose hand."""

from collections.abc import Callable, Iterable, Mapping
from typing import NamedTuple

from server.facts.door import DoorChange
from server.facts.people import Person

SHOWN = 100


class DoorHistory(NamedTuple):
    """The newest lines, with whom each is about and who did it in words, and how many more there are."""

    lines: tuple[tuple[DoorChange, str, str], ...]
    more: int


def door_history(
    changes: Iterable[DoorChange], people: Mapping[str, Person], about: Callable[[DoorChange], str | None]
) -> DoorHistory:
    """Lay out the changes that are about something of this page."""
    found = [each for each in changes if about(each)]
    found.sort(key=lambda each: each.at, reverse=True)

    def named(person: str | None) -> str:
        known = people.get(person or "")
        return known.name if known else person or "a command on the machine"

    shown = tuple((each, named(about(each)), _hand(each, named)) for each in found[:SHOWN])
    return DoorHistory(shown, len(found) - len(shown))


def _hand(change: DoorChange, named: Callable[[str | None], str]) -> str:
    role = f", {change.role}" if change.role else ""
    where = f" on {change.on}" if change.by else ""
    return f"{named(change.by)}{role}{where}"
