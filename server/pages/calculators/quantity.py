"""A quantity on a calculator's form: what it is called, the units it may be written in, the number it stands for."""

import re
from dataclasses import dataclass

from server.physics.errors import UnusableInput
from server.physics.units import read_quantity

_BARE = re.compile(r"[-+−\d.,/\s]*(?:\d[eE][-+]?\d+)?\s*")
_MOST_LETTERS = 60
_SPELLED = {"×": "dimensionless"}


@dataclass(frozen=True, slots=True)
class Field:
    """One quantity to fill in: its words, the formula's unit, the units offered first to last, what stands there."""

    name: str
    words: str
    unit: str
    units: tuple[str, ...]
    start: str = ""
    hint: str = ""
    needed: bool = True


@dataclass(frozen=True, slots=True)
class Problem:
    """What is wrong with one field: what was found, what is expected, what to do next."""

    field: str
    words: str
    found: str
    expected: str
    remedy: str

    def __str__(self) -> str:
        return f"{self.words}: {self.found}. Expected: {self.expected}. {self.remedy}"


def read_number(field: Field, written: str, unit: str) -> float | None:
    """Give the number in the formula's unit, none for an empty field; raises `UnusableInput` for anything else.

    A unit written into the field goes before the one chosen beside it.

    >>> flow = Field("flow", "Purge flow", "L/min", ("L/min", "cfh"))
    >>> read_number(flow, "20", "cfh") == read_number(flow, "20 cfh", "L/min")
    True
    """
    if not written.strip():
        return None
    if len(written) > _MOST_LETTERS:
        raise UnusableInput(field.name, f"{written[:20]}…", f"at most {_MOST_LETTERS} letters", "Write it shorter.")
    text = f"{written.strip()} {_SPELLED.get(unit, unit)}" if _BARE.fullmatch(written) else written
    return read_quantity(field.name, text, field.unit)


def problem_of(field: Field, written: str, unit: str, error: UnusableInput) -> Problem:
    """Put what a formula or the units library refuses into the words of the form."""
    found = "nothing written" if not written.strip() else written.strip()
    if written.strip() and _BARE.fullmatch(written):
        found = f"{found} {unit}"
    expected = error.expected.replace("degC", "°C").replace(" dimensionless", "")
    if expected.startswith("a number from"):
        expected = f"{expected} {shown_unit(field.unit)}".strip()
    return Problem(field.name, field.words, found, expected, error.remedy)


def shown_unit(unit: str) -> str:
    """Write a formula's unit as a shop reads it."""
    return {"degC": "°C", "dimensionless": ""}.get(unit, unit)
