"""A long list, part by part: each part has an address of its own, and says how many there are in all."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar, overload

Row = TypeVar("Row")
Told = TypeVar("Told")


@dataclass(frozen=True, slots=True)
class Part(Generic[Row]):
    """Some rows of a list: which part it is, of how many, and where the others are."""

    rows: Sequence[Row]
    first: int
    total: int
    number: int
    parts: int
    address: str

    @property
    def last(self) -> int:
        """The place of the last row shown."""
        return self.first + len(self.rows) - 1

    def at(self, number: int) -> str:
        """Give the address of another part."""
        if number == 1:
            return self.address
        return f"{self.address}{'&' if '?' in self.address else '?'}part={number}"

    def showing(self, rows: Sequence[Told]) -> "Part[Told]":
        """Give the same part with its rows as they are told."""
        return Part(rows, self.first, self.total, self.number, self.parts, self.address)


def part_of(every: Sequence[Row], asked: int, most: int, address: str) -> Part[Row]:
    """Give one part of a list; a number there is no part for gives the nearest there is."""
    parts = max(1, -(-len(every) // most))
    number = min(max(1, asked), parts)
    first = (number - 1) * most
    return Part(every[first : first + most], first + 1, len(every), number, parts, address)


class Backwards(Sequence[Row]):
    """A list from its end to its beginning, without a copy of it."""

    def __init__(self, rows: Sequence[Row]) -> None:
        self._rows = rows

    def __len__(self) -> int:
        return len(self._rows)

    @overload
    def __getitem__(self, at: int) -> Row: ...
    @overload
    def __getitem__(self, at: slice) -> Sequence[Row]: ...
    def __getitem__(self, at: int | slice) -> Row | Sequence[Row]:
        if isinstance(at, slice):
            return [self._rows[-1 - each] for each in range(*at.indices(len(self)))]
        return self._rows[-1 - at]
