"""Takes the people out of a dossier: names and personal ids become roles, in every text wherever it stands."""

import re
from collections.abc import Callable, Mapping
from typing import Any

from server.facts.customers import NamelessCustomer
from server.facts.registers import Registers

_SHORTEST_PART = 3
_PERSON = ("who", "person", "by", "welder", "packed_by", "released_by", "written_by")


def without_names(told: Any, registers: Registers) -> Any:
    """Give the same data with each person as `welder 1` and each customer as `a customer`, in keys and values alike.

    An id that is also the name of a joint or a tube is taken for a person only where a person stands.
    """
    people, names = _people(registers), _names(registers)
    designs = registers.designs.values()
    places = {each.id for design in designs for each in design.joints}
    places |= {each.id for design in designs for each in design.members}
    names |= {person: role for person, role in people.items() if person not in places}
    longest_first = sorted(names, key=len, reverse=True)
    either = re.compile(r"(?<!\w)(?:" + "|".join(map(re.escape, longest_first)) + r")(?!\w)")
    return _through(told, lambda text: either.sub(lambda found: names[found[0]], text) if names else text, people)


def _through(told: Any, put: Callable[[str], str], people: Mapping[str, str]) -> Any:
    if isinstance(told, str):
        return put(told)
    if isinstance(told, Mapping):
        persons = (*_PERSON, "id") if "roles" in told else _PERSON
        return {put(key): _value(key in persons, value, put, people) for key, value in told.items()}
    if isinstance(told, list | tuple):
        return [_through(each, put, people) for each in told]
    return told


def _value(a_person: bool, value: Any, put: Callable[[str], str], people: Mapping[str, str]) -> Any:
    known = people.get(value) if a_person and isinstance(value, str) else None
    return known if known is not None else _through(value, put, people)


def _people(registers: Registers) -> dict[str, str]:
    found: dict[str, str] = {}
    counted: dict[str, int] = {}
    for person in sorted(registers.people.values(), key=lambda each: each.id):
        role = person.roles[0] if person.roles else "person"
        counted[role] = counted.get(role, 0) + 1
        found[person.id] = f"{role} {counted[role]}"
    return found


def _names(registers: Registers) -> dict[str, str]:
    names: dict[str, str] = {}
    for customer in registers.customers.values():
        said = [] if isinstance(customer, NamelessCustomer) else _said(customer.name)
        names |= dict.fromkeys((*said, customer.id), "a customer")
        names |= dict.fromkeys([customer.address] if customer.address else [], "an address")
    roles = _people(registers)
    for person in registers.people.values():
        names |= dict.fromkeys(_said(person.name), roles[person.id])
    return names


def _said(name: str) -> list[str]:
    parts = [part for part in name.split() if len(part) >= _SHORTEST_PART and part[:1].isupper()]
    return [name, *parts]
