"""What was read once and only ever grows: carried on from position to position, and shared by all readers."""

import threading
from bisect import bisect_left, bisect_right
from collections.abc import Callable, Iterable
from typing import Generic, TypeVar

Item = TypeVar("Item")


class Carried(Generic[Item]):
    """Items in the order of their positions, each belonging to the record for good once its line was committed."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._positions: list[int] = []
        self._items: list[Item] = []
        self._read_to = 0

    def up_to(
        self, position: int, kept: int | None, read: Callable[[int, int], Iterable[tuple[int, Item]]]
    ) -> list[Item]:
        """Give the items up to a position, reading only those behind the last one carried.

        What lies behind `kept` may still be taken back with its transaction, so it is given but not carried.
        """
        with self._lock:
            if position > self._read_to:
                new = list(read(self._read_to, position))
                if kept is not None and position > kept:
                    return [*self._items, *(item for _, item in new)]
                self._positions += [at for at, _ in new]
                self._items += [item for _, item in new]
                self._read_to = position
            return self._items[: bisect_right(self._positions, position)]

    def among(self, positions: Iterable[int]) -> dict[int, Item]:
        """Give the items of these positions, as far as they are carried."""
        with self._lock:
            known, items, end = self._positions, self._items, len(self._positions)
            places = ((position, bisect_left(known, position)) for position in positions)
            return {position: items[at] for position, at in places if at < end and known[at] == position}
