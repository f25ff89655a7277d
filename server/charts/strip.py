"""One thing measured on many frames as a strip of marks, with this frame's own marked: where it lies, not why."""

from collections.abc import Sequence
from statistics import median
from typing import NamedTuple

from server.charts.axes import Axis, even_axis

WIDTH, LEFT, RIGHT = 640.0, 16.0, 16.0


class Dot(NamedTuple):
    """One reading: where it lies, what it says when pointed at, and where it leads."""

    value: float
    words: str
    link: str = ""


class PlacedDot(NamedTuple):
    """A reading at its place along the strip."""

    at: float
    dot: Dot


class Strip(NamedTuple):
    """A strip laid out: the others, this frame's own, the middle of the others, the ends of the axis and its marks."""

    words: str
    others: tuple[PlacedDot, ...]
    own: tuple[PlacedDot, ...]
    middle: float | None
    middle_at: float
    marks: tuple[tuple[float, str], ...]
    frames: int


def lay_strip(words: str, others: Sequence[Dot], own: Sequence[Dot], frames: int) -> Strip:
    """Lay readings out along one axis.

    >>> lay_strip("heat", [Dot(0.0, ""), Dot(10.0, "")], [Dot(5.0, "")], 2).own[0].at
    320.0
    """
    values = [each.value for each in (*others, *own)]
    axis = even_axis(words, min(values), max(values))
    middle = median(each.value for each in others) if others else None
    return Strip(
        words=words,
        others=tuple(PlacedDot(_along(axis, each.value), each) for each in others),
        own=tuple(PlacedDot(_along(axis, each.value), each) for each in own),
        middle=middle,
        middle_at=_along(axis, middle) if middle is not None else 0.0,
        marks=tuple((_along(axis, mark), f"{mark:g}") for mark in axis.marks),
        frames=frames,
    )


def _along(axis: Axis, value: float) -> float:
    return round(LEFT + (WIDTH - LEFT - RIGHT) * axis.share(value), 1)
