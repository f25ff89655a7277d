"""Large mappings that are told a little more from time to time: what changed lies over what stood, which is shared."""

from collections.abc import ItemsView, Iterator, Mapping, ValuesView
from itertools import chain
from math import isqrt
from typing import Any, TypeVar, overload

Key = TypeVar("Key")
Value = TypeVar("Value")
Other = TypeVar("Other")
_WORTH_IT = 1000
"""What has fewer names is copied as quickly."""


class Layered(Mapping[Key, Value]):
    """What stood, and over it what was told anew and what came; like a plain one, it is never changed.

    Its names come in the order a plain one would give them: a name told anew keeps its place.
    """

    __slots__ = ("_anew", "_came", "_stood")

    def __init__(self, stood: Mapping[Key, Value], anew: dict[Key, Value], came: dict[Key, Value]) -> None:
        self._stood, self._anew, self._came = stood, anew, came

    def __getitem__(self, name: Key) -> Value:
        if name in self._came:
            return self._came[name]
        return self._anew[name] if name in self._anew else self._stood[name]

    @overload
    def get(self, name: Key, default: None = None, /) -> Value | None: ...
    @overload
    def get(self, name: Key, default: Value | Other, /) -> Value | Other: ...
    def get(self, name: Key, default: Any = None, /) -> Any:
        """Give what stands under a name."""
        if name in self._came:
            return self._came[name]
        return self._anew[name] if name in self._anew else self._stood.get(name, default)

    def __contains__(self, name: object) -> bool:
        return name in self._came or name in self._stood

    def __iter__(self) -> Iterator[Key]:
        return chain(self._stood, self._came)

    def __len__(self) -> int:
        return len(self._stood) + len(self._came)

    def values(self) -> ValuesView[Value]:
        """Give what stands under the names, in their order."""
        return _Values(self)

    def items(self) -> ItemsView[Key, Value]:
        """Give the names with what stands under them."""
        return _Items(self)

    def with_changes(self, changes: Mapping[Key, Value]) -> Mapping[Key, Value]:
        """Give it with some names told, anew or for the first time."""
        anew, came = dict(self._anew), dict(self._came)
        for name, told in changes.items():
            (came if name in came or name not in self._stood else anew)[name] = told
        if len(anew) + len(came) > isqrt(len(self._stood)):
            return {**self._stood, **anew, **came}
        return Layered(self._stood, anew, came)

    def came_since(self, before: Mapping[Key, Value]) -> dict[Key, Value] | None:
        """Give what came to a mapping of before; none where that cannot be told by the layers alone."""
        same = isinstance(before, Layered) and before._stood is self._stood and before._anew == self._anew
        if not same and (before is not self._stood or self._anew):
            return None
        known = before._came if isinstance(before, Layered) else {}
        names = list(self._came)
        if list(known.items()) != [(name, self._came[name]) for name in names[: len(known)]]:
            return None
        return {name: self._came[name] for name in names[len(known) :]}

    def in_turn(self) -> Iterator[Value]:
        """Give what stands under each name."""
        if not self._anew:
            return chain(self._stood.values(), self._came.values())
        return (self[name] for name in self)

    def in_order(self) -> Iterator[tuple[Key, Value]]:
        """Give each name with what stands under it."""
        if not self._anew:
            return chain(self._stood.items(), self._came.items())
        return ((name, self[name]) for name in self)


class _Values(ValuesView[Value]):
    _mapping: Layered[Any, Value]

    def __iter__(self) -> Iterator[Value]:
        return self._mapping.in_turn()


class _Items(ItemsView[Key, Value]):
    _mapping: Layered[Key, Value]

    def __iter__(self) -> Iterator[tuple[Key, Value]]:
        return self._mapping.in_order()


def layered(before: Mapping[Key, Value], changes: Mapping[Key, Value]) -> Mapping[Key, Value]:
    """Give a mapping with some names told; it costs what changes, and now and then what there is."""
    if isinstance(before, Layered):
        return before.with_changes(changes)
    if len(before) < _WORTH_IT or len(changes) > isqrt(len(before)):
        return {**before, **changes}
    return Layered(before, {}, {}).with_changes(changes)
