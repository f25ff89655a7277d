"""What held when: values with their starts as two sorted arrays, looked up by bisection."""

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from typing import Generic, TypeVar

Value = TypeVar("Value")


class Spans(Generic[Value]):
    """Values that each hold from a start [ms or day] until the next one starts."""

    __slots__ = ("starts", "values")

    def __init__(self, starting: Iterable[tuple[int, Value]]) -> None:
        ordered = sorted(starting, key=_start)
        self.starts = [start for start, _ in ordered]
        self.values = [value for _, value in ordered]

    def at(self, moment: int) -> Value | None:
        """Give what holds at a moment; what starts on it holds already."""
        place = bisect_right(self.starts, moment)
        return self.values[place - 1] if place else None

    def last_before(self, moment: int) -> tuple[int, Value] | None:
        """Give the last one that started before a moment, with its start."""
        place = bisect_left(self.starts, moment)
        return (self.starts[place - 1], self.values[place - 1]) if place else None

    def first_after(self, moment: int) -> tuple[int, Value] | None:
        """Give the first one that started after a moment, with its start."""
        place = bisect_right(self.starts, moment)
        return (self.starts[place], self.values[place]) if place < len(self.starts) else None

    def between(self, since: int, until: int) -> list[Value]:
        """Give those that started after `since` and before `until`."""
        return self.values[bisect_right(self.starts, since) : bisect_left(self.starts, until)]


def _start(pair: tuple[int, object]) -> int:
    return pair[0]
