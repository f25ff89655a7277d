"""A reading with its doubt: the value, the standard uncertainty of what gave it, and the entry it stands in."""

from typing import NamedTuple


class Figure(NamedTuple):
    """A value with its standard uncertainty `u` in the same unit; no `u`: nobody knows how sure it is."""

    value: float
    u: float | None
    how: str
    by: str | None
    entry: str


class CardName(NamedTuple):
    """The revision a limit card was made from."""

    procedure: str
    revision: str
