"""A strip of time: bands with a beginning and an end, marks at moments, laid out from left to right."""

from collections.abc import Sequence
from datetime import date
from typing import NamedTuple

WIDTH = 900.0


class Band(NamedTuple):
    """A stretch of days, ends included, with its look and its words."""

    first: int
    last: int
    look: str
    words: str


class Moment(NamedTuple):
    """A day to mark, with its look and its words."""

    day: int
    look: str
    words: str


class Placed(NamedTuple):
    """A band or a mark at its place; a mark has no width."""

    at: float
    width: float
    look: str
    words: str


class TimeStrip(NamedTuple):
    """The strip laid out, with the years or months written under it."""

    bands: tuple[Placed, ...]
    marks: tuple[Placed, ...]
    scale: tuple[tuple[float, str], ...]


def lay_time(bands: Sequence[Band], marks: Sequence[Moment] = ()) -> TimeStrip:
    """Lay bands and marks out over the days they span together.

    >>> lay_time([Band(0, 9, "held", "a"), Band(10, 19, "off", "b")]).bands[1].at
    450.0
    """
    days = [day for band in bands for day in (band.first, band.last + 1)] + [mark.day for mark in marks]
    first, last = min(days), max(*days, min(days) + 1)

    def at(day: int) -> float:
        return round(WIDTH * (day - first) / (last - first), 1)

    return TimeStrip(
        bands=tuple(Placed(at(b.first), round(at(b.last + 1) - at(b.first), 1), b.look, b.words) for b in bands),
        marks=tuple(Placed(at(each.day), 0.0, each.look, each.words) for each in marks),
        scale=tuple((at(day), words) for day, words in _scale(first, last)),
    )


def _scale(first: int, last: int) -> list[tuple[int, str]]:
    """First days of months, or of years where the strip is long, inside the strip."""
    if first < 1:
        return []
    every = 1 if last - first < 200 else 3 if last - first < 800 else 12
    day, found = date.fromordinal(first).replace(day=1), []
    while day.toordinal() <= last:
        if day.toordinal() >= first and (day.month - 1) % every == 0:
            found.append((day.toordinal(), day.strftime("%Y" if every == 12 else "%b %Y")))
        day = date(day.year + day.month // 12, day.month % 12 + 1, 1)
    return found
