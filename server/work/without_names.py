"""Takes the people out of a dossier: names and personal ids become roles, in every text wherever it stands."""

import re
from collections.abc import Mapping
from typing import Any

from server.facts.registers import Registers

_SHORTEST_PART = 3


def without_names(told: Any, registers: Registers) -> Any:
    """Give the same data with each person as `welder 1` and each customer as `a customer`, in keys and values alike."""
    names = _names(registers)
    if not names:
        return told
    longest_first = sorted(names, key=len, reverse=True)
    either = re.compile(r"(?<!\w)(?:" + "|".join(map(re.escape, longest_first)) + r")(?!\w)")
    return _through(told, lambda text: either.sub(lambda found: names[found[0]], text))


def _through(told: Any, put: Any) -> Any:
    if isinstance(told, str):
        return put(told)
    if isinstance(told, Mapping):
        return {put(key): _through(value, put) for key, value in told.items()}
    if isinstance(told, list | tuple):
        return [_through(each, put) for each in told]
    return told


def _names(registers: Registers) -> dict[str, str]:
    names: dict[str, str] = {}
    for customer in registers.customers.values():
        names |= dict.fromkeys(_said(customer.id, customer.name), "a customer")
        names |= dict.fromkeys([customer.address] if customer.address else [], "an address")
    counted: dict[str, int] = {}
    for person in sorted(registers.people.values(), key=lambda each: each.id):
        role = person.roles[0] if person.roles else "person"
        counted[role] = counted.get(role, 0) + 1
        names |= dict.fromkeys(_said(person.id, person.name), f"{role} {counted[role]}")
    return names


def _said(named: str, name: str) -> list[str]:
    parts = [part for part in name.split() if len(part) >= _SHORTEST_PART and part[:1].isupper()]
    return [named, name, *parts]
