"""What the page of people shows: each person with what they sign in by, and whether they can."""

from dataclasses import dataclass

from markupsafe import Markup

from server.facts.people import Person
from server.pages.frame.door_history import DoorHistory


@dataclass(frozen=True, slots=True)
class DoorOf:
    """One person at the door: the kinds of secret they have, wrong tries in a row, where they are signed in.

    `to_change` holds while a secret the owner chose waits to be changed by the person.
    """

    person: Person
    secrets: tuple[str, ...]
    tries: int
    off: bool
    to_change: bool
    signed_in_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PeoplePage:
    """Everybody who works here, what was done, and what went wrong with what was chosen."""

    people: tuple[DoorOf, ...]
    history: DoorHistory
    chosen: str
    kind: str
    done: str
    problems: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class BadgePage:
    """A badge just printed: whose it is, and its code as text and as a drawing, shown this once."""

    person: Person
    code: str
    drawing: Markup
