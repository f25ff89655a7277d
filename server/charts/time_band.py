"""Lays passes and the checks beside them on one band of time, with the days written under it."""

from bisect import bisect_left
from collections.abc import Callable, Iterator, Sequence
from datetime import UTC, datetime
from typing import NamedTuple, Protocol, TypeVar

WIDTH, HEIGHT, LEFT, RIGHT = 960, 96, 20, 940
_MOST_DAYS = 12
_DAY_MS = 86_400_000
_MARK_WIDE = 8


class Checked(Protocol):
    """A check to be laid on the band."""

    @property
    def at_ms(self) -> int:
        """When it was [ms, UTC]."""


Check = TypeVar("Check", bound=Checked)


class Scale(NamedTuple):
    """Which column of the band a moment lies in."""

    first_ms: int
    span_ms: int

    def x(self, at_ms: int) -> int:
        """The column a moment lies in."""
        return LEFT + (at_ms - self.first_ms) * (RIGHT - LEFT) // self.span_ms

    def end_ms(self, x: int) -> int:
        """The first moment that lies in a later column."""
        return self.first_ms - (-(x + 1 - LEFT) * self.span_ms // (RIGHT - LEFT))


class Passing(Protocol):
    """Passes on the band."""

    @property
    def number(self) -> int:
        """How many."""

    @property
    def ends_ms(self) -> tuple[int, int]:
        """The first and the last [ms, UTC]."""

    def columns(self, scale: Scale) -> tuple[int, ...]:
        """Give the columns that have a pass."""


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

    @property
    def path(self) -> str:
        """The strokes as one path."""
        return "".join(f"M{x} 46v20" for x in self.strokes)


def lay_band(
    passes: Passing | None, good: Sequence[Check], failed: Sequence[Check], words: Callable[[Check], str]
) -> TimeBand:
    """Lay the band from the first to the last of what is on it.

    The checks are in order. However many there are, a band has one stroke to a column: what lies closer could not be
    told apart.
    """
    moments = [*(passes.ends_ms if passes else ())]
    moments += [each.at_ms for checks in (good, failed) for each in (*checks[:1], *checks[-1:])]
    if not moments:
        return TimeBand((), (), (), "nothing on the band")
    first, last = min(moments), max(moments)
    scale = Scale(first, max(last - first, 1))
    checked = f"{len(good) + len(failed):,} checks, {len(failed):,} of them failed"
    title = f"{passes.number if passes else 0:,} passes and {checked}"
    days = tuple((scale.x(max(day, first)), _day(day)) for day in _days(first, last))
    marks = (*_marks(good, "good", words, scale), *_marks(failed, "failed", words, scale))
    return TimeBand(passes.columns(scale) if passes else (), marks, days, title)


def columns_from(first_ms: int, first_from: Callable[[int], int | None], scale: Scale) -> Iterator[int]:
    """Give each column that has something; `first_from` tells when the first was from a moment on, if any was."""
    at_ms: int | None = first_ms
    while at_ms is not None:
        yield (x := scale.x(at_ms))
        at_ms = first_from(scale.end_ms(x))


def _marks(checks: Sequence[Check], kind: str, words: Callable[[Check], str], scale: Scale) -> Iterator[Mark]:
    """A mark to each stretch of the band with a check of that outcome, at the first of them."""
    at = 0
    while at < len(checks):
        x = scale.x(checks[at].at_ms)
        until = bisect_left(checks, scale.end_ms(x | _MARK_WIDE - 1), at, key=lambda check: check.at_ms)
        more = f" and {until - at - 1:,} more" if until > at + 1 else ""
        yield Mark(x, kind, words(checks[at]) + more)
        at = until


def _days(first: int, last: int) -> list[int]:
    every = range(first - first % _DAY_MS, last + 1, _DAY_MS)
    step = -(-len(every) // _MOST_DAYS)
    return list(every[:: max(step, 1)])


def _day(at_ms: int) -> str:
    return datetime.fromtimestamp(at_ms / 1000, UTC).strftime("%d %b %y")
