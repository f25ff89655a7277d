"""What the page of people shows: each person with what they sign in by, and whether they can."""

from dataclasses import dataclass

from server.facts.people import Person


@dataclass(frozen=True, slots=True)
class DoorOf:
    """One person at the door: the kinds of secret they have, wrong tries in a row, where they are signed in."""

    person: Person
    secrets: tuple[str, ...]
    tries: int
    off: bool
    signed_in_on: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PeoplePage:
    """Everybody who works here, what was done, and what went wrong."""

    people: tuple[DoorOf, ...]
    chosen: str
    done: str
    problems: tuple[str, ...]
