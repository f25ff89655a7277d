"""Lays passes and the checks beside them on one band of time, with the days written under it."""

from collections.abc import Iterable
from datetime import UTC, datetime
from typing import NamedTuple

WIDTH, HEIGHT, LEFT, RIGHT = 960.0, 96.0, 20.0, 940.0
_MOST_DAYS = 12
_DAY_MS = 86_400_000


class Mark(NamedTuple):
    """One mark on the band: where, what it is, and what is said of it."""

    x: float
    kind: str
    words: str


class TimeBand(NamedTuple):
    """The whole band: its marks, the days under it, and what is said of it to who cannot see it."""

    marks: tuple[Mark, ...]
    days: tuple[tuple[float, str], ...]
    title: str


def lay_band(passes_ms: Iterable[int], checks: Iterable[tuple[int, bool, str]]) -> TimeBand:
    """Lay the band from the first to the last of what is on it; `checks` are moment [ms, UTC], good, words."""
    passes, about = sorted(passes_ms), sorted(checks)
    moments = [*passes, *(at_ms for at_ms, _, _ in about)]
    if not moments:
        return TimeBand((), (), "nothing on the band")
    first, last = min(moments), max(moments)
    span = max(last - first, 1)

    def x(at_ms: int) -> float:
        return round(LEFT + (RIGHT - LEFT) * (at_ms - first) / span, 1)

    marks = [Mark(place, "pass", "") for place in dict.fromkeys(map(x, passes))]
    marks += [Mark(x(at_ms), "good" if good else "failed", words) for at_ms, good, words in about]
    failed = sum(not good for _, good, _ in about)
    title = f"{len(passes)} passes and {len(about)} checks, {failed} of them failed"
    return TimeBand(tuple(marks), tuple((x(max(day, first)), _day(day)) for day in _days(first, last)), title)


def _days(first: int, last: int) -> list[int]:
    every = range(first - first % _DAY_MS, last + 1, _DAY_MS)
    step = -(-len(every) // _MOST_DAYS)
    return list(every[:: max(step, 1)])


def _day(at_ms: int) -> str:
    return datetime.fromtimestamp(at_ms / 1000, UTC).strftime("%d %b %y")
