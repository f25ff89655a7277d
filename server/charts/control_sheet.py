"""A control chart laid out as plain data: points where they lie, limits as lines, what lies beyond by its shape."""

from collections.abc import Sequence
from typing import NamedTuple

from server.charts.axes import Axis, even_axis
from server.statistics.chart import Track

WIDTH, HEIGHT = 900.0, 220.0
LEFT, RIGHT, TOP, BOTTOM = 64.0, 120.0, 10.0, 24.0


class PlacedPoint(NamedTuple):
    """A point at its place, whether it lies beyond a limit, and which reading it is, counted from 0."""

    x: float
    y: float
    beyond: bool
    place: int


class Line(NamedTuple):
    """A limit or the centre, as the points of a line, with its words at the right end."""

    words: str
    text: str
    at: float


class ControlSheet(NamedTuple):
    """One track laid out."""

    name: str
    points: tuple[PlacedPoint, ...]
    path: str
    lines: tuple[Line, ...]
    marks: tuple[tuple[float, str], ...]


def lay_track(track: Track) -> ControlSheet:
    """Lay one track of a control chart out.

    >>> sheet = lay_track(Track("individuals", (1.0, 9.0), 2.0, (0.0, 0.0), (5.0, 5.0)))
    >>> [point.beyond for point in sheet.points]
    [False, True]
    """
    axis = _axis(track)
    count = max(len(track.points) - 1, 1)
    beyond = set(track.signals)
    placed = tuple(
        PlacedPoint(_along(place / count), _up(axis, value), place in beyond, place)
        for place, value in enumerate(track.points)
        if value is not None
    )
    lines = [_line("centre", [track.centre] * len(track.points), axis, count)]
    lines += [_line("upper limit", track.upper, axis, count), _line("lower limit", track.lower, axis, count)]
    return ControlSheet(
        name=track.name,
        points=placed,
        path=" ".join(f"{each.x},{each.y}" for each in placed),
        lines=tuple(line for line in lines if line is not None),
        marks=tuple((_up(axis, mark), f"{mark:g}") for mark in axis.marks),
    )


def _axis(track: Track) -> Axis:
    shown = [each for row in (track.points, track.lower, track.upper, (track.centre,)) for each in row]
    known = [each for each in shown if each is not None]
    return even_axis(track.name, min(known), max(known))


def _along(share: float) -> float:
    return round(LEFT + (WIDTH - LEFT - RIGHT) * share, 1)


def _up(axis: Axis, value: float) -> float:
    return round(HEIGHT - BOTTOM - (HEIGHT - TOP - BOTTOM) * axis.share(value), 1)


def _line(words: str, values: Sequence[float | None], axis: Axis, count: int) -> Line | None:
    known = [(place, value) for place, value in enumerate(values) if value is not None]
    if not known:
        return None
    text = " ".join(f"{_along(place / count)},{_up(axis, value)}" for place, value in known)
    return Line(f"{words} {known[-1][1]:.5g}", text, _up(axis, known[-1][1]))
