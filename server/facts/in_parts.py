"""Long lists that are told a little more from time to time: they stand in parts, and a part that stays is shared."""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable, Iterator, Sequence
from itertools import accumulate, chain, takewhile
from typing import Any, TypeVar, overload

Item = TypeVar("Item")
_Parts = Sequence[Sequence[Item]]
_LONG = 2000
"""What is shorter is copied as quickly."""
_AT_MOST = 1000
"""So many items stand in a part."""


class InParts(Sequence[Item]):
    """A list in parts; like a tuple, it is never changed."""

    __slots__ = ("_ends", "_parts")

    def __init__(self, parts: Iterable[Sequence[Item]]) -> None:
        self._parts = list(parts)
        self._ends = list(accumulate(map(len, self._parts)))

    @overload
    def __getitem__(self, place: int, /) -> Item: ...
    @overload
    def __getitem__(self, place: slice, /) -> list[Item]: ...
    def __getitem__(self, place: int | slice, /) -> Item | list[Item]:
        if isinstance(place, slice):
            low, high, step = place.indices(len(self))
            return self._between(low, high) if step == 1 else [self[at] for at in range(low, high, step)]
        if place < 0:
            place += len(self)
        if not 0 <= place < len(self):
            raise IndexError(place)
        part = bisect_right(self._ends, place)
        return self._parts[part][place - self._ends[part]]

    def __len__(self) -> int:
        return self._ends[-1] if self._ends else 0

    def __iter__(self) -> Iterator[Item]:
        return chain.from_iterable(self._parts)

    def __reversed__(self) -> Iterator[Item]:
        return chain.from_iterable(map(reversed, reversed(self._parts)))

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, (list, InParts)):
            return NotImplemented
        return len(self) == len(other) and all(mine == its for mine, its in zip(self, other, strict=True))

    __hash__ = None  # type: ignore[assignment]

    def put(self, low: int, high: int, items: Sequence[Item]) -> "InParts[Item]":
        """Give it with other items where those from one place up to another stand."""
        if not self._parts:
            return InParts(_cut(list(items)))
        first = min(bisect_right(self._ends, low), len(self._parts) - 1)
        last = min(bisect_right(self._ends, high), len(self._parts) - 1)
        start, last_start = (self._ends[part] - len(self._parts[part]) for part in (first, last))
        there = [*self._parts[first][: low - start], *items, *self._parts[last][high - last_start :]]
        return InParts([*self._parts[:first], *_cut(there), *self._parts[last + 1 :]])

    def place_in(self, part: int, value: Any, key: Callable[[Item], Any]) -> int:
        """Give the place of what is the first in one part to have a key no less; after the last part, the end."""
        if part == len(self._parts):
            return len(self)
        items = self._parts[part]
        return self._ends[part] - len(items) + bisect_left(items, value, key=key)

    @property
    def parts(self) -> _Parts[Item]:
        """Its parts; those of a list it was told after are the same objects where nothing changed."""
        return self._parts

    def _between(self, low: int, high: int) -> list[Item]:
        found: list[Item] = []
        part = bisect_right(self._ends, low)
        while low < high:
            start = self._ends[part] - len(self._parts[part])
            found += self._parts[part][low - start : high - start]
            low = self._ends[part]
            part += 1
        return found


def put_in(items: Sequence[Item], low: int, high: int, others: Sequence[Item]) -> Sequence[Item]:
    """Give a list with other items where those from one place up to another stand; a long one shares what stays."""
    if isinstance(items, InParts):
        return items.put(low, high, others)
    return in_parts([*items[:low], *others, *items[high:]])


def first_at(items: Sequence[Item], value: Any, key: Callable[[Item], Any]) -> int:
    """Give the first place at which an item stands whose key is no less; of a long list in order, by its parts."""
    if not isinstance(items, InParts):
        return bisect_left(items, value, key=key)
    part = bisect_left(items.parts, value, key=lambda each: key(each[-1]))
    return items.place_in(part, value, key)


def same_ends(old: Sequence[Item], new: Sequence[Item]) -> tuple[int, int]:
    """Give how many of the same objects two lists begin with, and how many of what is left they end with."""
    mine, its = (each.parts if isinstance(each, InParts) else [each] for each in (old, new))
    most = min(len(old), len(new))
    head = _alike(mine, its, iter)
    return head, min(_alike(mine[::-1], its[::-1], reversed), most - head)


def _alike(mine: _Parts[Item], its: _Parts[Item], turned: Callable[[Sequence[Item]], Iterator[Item]]) -> int:
    parts = sum(1 for _ in takewhile(_same, zip(mine, its, strict=False)))
    left = (chain.from_iterable(map(turned, each[parts:])) for each in (mine, its))
    return sum(map(len, mine[:parts])) + sum(1 for _ in takewhile(_same, zip(*left, strict=False)))


def _same(pair: tuple[object, object]) -> bool:
    return pair[0] is pair[1]


def in_parts(items: list[Item]) -> Sequence[Item]:
    """Give a list as it is best kept."""
    return items if len(items) < _LONG else InParts(_cut(items))


def _cut(items: list[Item]) -> Iterator[list[Item]]:
    """Cut into parts that each have room for more."""
    if len(items) <= _AT_MOST:
        yield from [items] if items else []
        return
    half = _AT_MOST // 2
    yield from (items[at : at + half] for at in range(0, len(items), half))
