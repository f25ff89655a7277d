"""Lives of joints counted by how long they were, to a thousandth of a year."""

from array import array
from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

_YEAR_MS = 365.25 * 86_400_000
_IN_ONE = 1000


class Tally(NamedTuple):
    """Lives by their length [a thousandth of a year]: how many were so long, and how many of these a claim ended."""

    leaving: Counter[int]
    ended: Counter[int]

    def in_years(self) -> tuple[dict[float, int], dict[float, int]]:
        """Give both by years."""
        leaving, ended = ({each / _IN_ONE: count for each, count in counts.items()} for counts in self)
        return leaving, ended

    @property
    def years(self) -> float:
        """All lives together [years]."""
        return sum(each * count for each, count in self.leaving.items()) / _IN_ONE


def length(span_ms: int) -> int:
    """Give the length of a life [a thousandth of a year]; the shortest counts as one.

    >>> length(31_557_600_000)
    1000
    """
    return max(round(span_ms / _YEAR_MS * _IN_ONE), 1)


def lengths(left_ms: Sequence[int], until_ms: int) -> Counter[int]:
    """Count the lives of those that left before a moment by their length until then."""
    import numpy as np

    left = np.frombuffer(left_ms, dtype=np.int64) if isinstance(left_ms, array) else np.array(left_ms, dtype=np.int64)
    out = left[left < until_ms]
    spans = np.maximum(np.rint((until_ms - out) / _YEAR_MS * _IN_ONE).astype(np.int64), 1)
    counted = np.bincount(spans) if len(spans) else spans
    return Counter({int(each): int(counted[each]) for each in np.flatnonzero(counted)})
