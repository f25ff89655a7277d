"""Lays passes and the checks beside them on one band of time, with the days written under it."""

from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime
from typing import NamedTuple

WIDTH, HEIGHT, LEFT, RIGHT = 960, 96, 20, 940
_MOST_DAYS = 12
_DAY_MS = 86_400_000
_MARK_WIDE = 8


class Passing(NamedTuple):
    """Passes on the band: how many, the first and the last [ms, UTC], and the first of them from a moment on."""

    number: int
    first_ms: int
    last_ms: int
    first_from: Callable[[int], int | None]


class Mark(NamedTuple):
    """One check on the band, or as many of the same outcome as would stand on top of each other: where, and words."""

    x: int
    kind: str
    words: str


class TimeBand(NamedTuple):
    """The whole band: where a pass is, the checks, the days under it, and what is said of it to who cannot see it."""

    strokes: tuple[int, ...]
    marks: tuple[Mark, ...]
    days: tuple[tuple[int, str], ...]
    title: str


def lay_band(
    passes: Passing | None, checks: Sequence[tuple[int, bool]], words: Callable[[int], str]
) -> TimeBand:
    """Lay the band from the first to the last of what is on it.

    `checks` are moment [ms, UTC] and good, in order; `words` tells what is said of the one of a number. However many
    there are, a band has one stroke to a column: what lies closer could not be told apart.
    """
    moments = [*((passes.first_ms, passes.last_ms) if passes else ()), *(at_ms for at_ms, _ in checks[:1])]
    moments += [at_ms for at_ms, _ in checks[-1:]]
    if not moments:
        return TimeBand((), (), (), "nothing on the band")
    first, last = min(moments), max(moments)
    scale = _Scale(first, max(last - first, 1))
    failed = sum(not good for _, good in checks)
    title = f"{passes.number if passes else 0:,} passes and {len(checks):,} checks, {failed:,} of them failed"
    days = tuple((scale.x(max(day, first)), _day(day)) for day in _days(first, last))
    return TimeBand(tuple(_strokes(passes, scale)) if passes else (), tuple(_marks(checks, words, scale)), days, title)


class _Scale(NamedTuple):
    first_ms: int
    span_ms: int

    def x(self, at_ms: int) -> int:
        """The column a moment lies in."""
        return LEFT + (at_ms - self.first_ms) * (RIGHT - LEFT) // self.span_ms

    def end_ms(self, x: int) -> int:
        """The first moment that lies in a later column."""
        return self.first_ms - (-(x + 1 - LEFT) * self.span_ms // (RIGHT - LEFT))


def _strokes(passes: Passing, scale: _Scale) -> Iterator[int]:
    at_ms: int | None = passes.first_ms
    while at_ms is not None:
        yield (x := scale.x(at_ms))
        at_ms = passes.first_from(scale.end_ms(x))


def _marks(checks: Sequence[tuple[int, bool]], words: Callable[[int], str], scale: _Scale) -> Iterator[Mark]:
    """A mark to each stretch of the band with a check of that outcome, at the first of them."""
    for outcome in (True, False):
        numbers = [number for number, (_, good) in enumerate(checks) if good is outcome]
        at = 0
        while at < len(numbers):
            x = scale.x(checks[numbers[at]][0])
            until = bisect_left(numbers, scale.end_ms(x | _MARK_WIDE - 1), at, key=lambda number: checks[number][0])
            more = f" and {until - at - 1:,} more" if until > at + 1 else ""
            yield Mark(x, "good" if outcome else "failed", words(numbers[at]) + more)
            at = until


def _days(first: int, last: int) -> list[int]:
    every = range(first - first % _DAY_MS, last + 1, _DAY_MS)
    step = -(-len(every) // _MOST_DAYS)
    return list(every[:: max(step, 1)])


def _day(at_ms: int) -> str:
    return datetime.fromtimestamp(at_ms / 1000, UTC).strftime("%d %b %y")
