"""Large mappings that are told a little more from time to time: what changed lies over what stood, which is shared."""

from collections.abc import Collection, ItemsView, Iterator, Mapping, ValuesView
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

    def with_changes(self, changes: Mapping[Key, Value], empty: Collection[Key] = ()) -> Mapping[Key, Value]:
        """Give it with some names told, anew or for the first time, and without those that are empty by now."""
        anew, came = dict(self._anew), dict(self._came)
        for name, told in changes.items():
            (came if name in came or name not in self._stood else anew)[name] = told
        for name in empty:
            came.pop(name, None)
        if len(anew) + len(came) > isqrt(len(self._stood)) or any(name in self._stood for name in empty):
            return _without({**self._stood, **anew, **came}, empty)
        return Layered(self._stood, anew, came)

    @property
    def stood(self) -> Mapping[Key, Value]:
        """What the layers lie over."""
        return self._stood

    @property
    def told(self) -> Iterator[Key]:
        """The names told since."""
        return chain(self._anew, self._came)

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


def layered(
    before: Mapping[Key, Value], changes: Mapping[Key, Value], empty: Collection[Key] = ()
) -> Mapping[Key, Value]:
    """Give a mapping with some names told and without those that are empty by now.

    It costs what changes, and now and then what there is: also when a name goes that stood for long.
    """
    if isinstance(before, Layered):
        return before.with_changes(changes, empty)
    if len(before) < _WORTH_IT or len(changes) > isqrt(len(before)):
        return _without({**before, **changes}, empty)
    return Layered(before, {}, {}).with_changes(changes, empty)


def differing(before: Mapping[Key, Value], now: Mapping[Key, Value]) -> list[Key]:
    """Give the names under which not the same object stands in both; it costs what lies over what both stand on."""
    if before is now:
        return []
    old, new = (each if isinstance(each, Layered) else Layered(each, {}, {}) for each in (before, now))
    names = dict.fromkeys(chain(new.told, old.told) if old.stood is new.stood else chain(now, before))
    return [name for name in names if before.get(name) is not now.get(name)]


def _without(plain: dict[Key, Value], empty: Collection[Key]) -> dict[Key, Value]:
    for name in empty:
        plain.pop(name, None)
    return plain
