"""Gives the name of a person whose number an entry or a signature carries, as every page shows it."""

from collections import Counter
from collections.abc import Mapping

from server.facts.people import Person


class NamedPeople:
    """The shop's people by number; a number nobody is registered under stays as it was written.

    >>> from server.facts.people import Person
    >>> who = NamedPeople({each: Person(id=each, name="Ann Roe", roles=("welder",)) for each in ("P1", "P2")})
    >>> who("P1"), who("P3"), who(None)
    ('Ann Roe (P1)', 'P3', '')
    """

    def __init__(self, people: Mapping[str, Person]) -> None:
        borne = Counter(each.name for each in people.values())
        self._names = {
            number: each.name if borne[each.name] == 1 else f"{each.name} ({number})" for number, each in people.items()
        }

    def __call__(self, person: str | None) -> str:
        """Give a person's name, with the number where two bear the same name."""
        return self._names.get(person, person) if person else ""
