"""What the page of standing-in shows: who acts for whom now, what was before, and whom one may ask."""

from dataclasses import dataclass

from server.facts.deciding import StandIn
from server.facts.people import Person


@dataclass(frozen=True, slots=True)
class StandingInPage:
    """What holds now and all that was told, newest first; who may be asked; one's own roles."""

    now: tuple[StandIn, ...]
    told: tuple[StandIn, ...]
    people: tuple[Person, ...]
    own_roles: tuple[str, ...]
    filled: dict[str, str]
    problems: tuple[str, ...] = ()
    done: str = ""
