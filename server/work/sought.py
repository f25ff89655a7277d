"""What used every one of some things within a time: counted by place and frame from the index, told joint by joint."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from server.occasions.tables import Tables
from server.occasions.uses import FAR_MS, Use
from server.work.frame_places import PLACES, Place
from server.work.frame_things import FrameRow, of_bits, only
from server.work.thing_filing import Filing, by_last_pass
from server.work.thing_index import ThingIndex
from server.work.used_together import used_together
from server.work.what_things import Thing


class Stretch(NamedTuple):
    """A stretch of time from a moment on and before another [ms, UTC]."""

    since_ms: int = -FAR_MS
    until_ms: int = FAR_MS

    def holds(self, at_ms: int) -> bool:
        """Tell whether a moment lies in it."""
        return self.since_ms <= at_ms < self.until_ms

    def within(self, other: "Stretch") -> "Stretch":
        """Give what lies in both."""
        return Stretch(max(self.since_ms, other.since_ms), min(self.until_ms, other.until_ms))


EVER = Stretch()


@dataclass(frozen=True)
class Sought:
    """One question and its answer; nothing is read of a joint before somebody asks for that joint."""

    tables: Tables
    index: ThingIndex
    things: tuple[Thing, ...]
    stretch: Stretch = EVER

    @cached_property
    def rows(self) -> dict[Place, Sequence[FrameRow]]:
        """The frames by place, in the order of their last passes."""
        found = self._filed.rows_of(self.things[0])
        if self.stretch == EVER:
            return dict(found)
        inside = ((place, self._rows_inside(rows)) for place, rows in found)
        return {place: rows for place, rows in inside if rows}

    @cached_property
    def count(self) -> int:
        """How many joints, each attempt by itself."""
        return sum(self.joints_at(place) for place in PLACES)

    @property
    def passes(self) -> int:
        """How many passes."""
        low, high = self._between
        return high - low

    @property
    def ends_ms(self) -> tuple[int, int]:
        """The first and the last pass [ms, UTC]; of something, which there is."""
        low, high = self._between
        return self._uses[low].at.at_ms, self._uses[high - 1].at.at_ms

    @cached_property
    def frames(self) -> set[str]:
        """The frames of which a joint stands that was not cut out and made anew."""
        return {row.frame for place, rows in self.rows.items() if place != "removed" for row in rows}

    @property
    def frames_count(self) -> int:
        """How many frames these are; only a frame in the house has joints at more than one place."""
        inside = {row.frame for place in ("in work", "covered") for row in self.rows.get(place, ())}
        whole: tuple[Place, ...] = ("finished", "back in the house", "shipped")
        return len(inside) + sum(len(self.rows.get(place, ())) for place in whole)

    def joints_at(self, place: Place) -> int:
        """How many joints are at a place."""
        if self.stretch == EVER:
            return self._filed.at(self.things[0], place).joints
        return sum(row.joints for row in self.rows.get(place, ()))

    def has_standing(self, frame: str) -> bool:
        """Tell whether a joint of a frame stands that was not cut out and made anew."""
        if self.stretch != EVER:
            return frame in self.frames
        of_frame = self._filed.frames.get(frame)
        used = of_frame.used.get(self.things[0], 0) if of_frame else 0
        return of_frame is not None and any(bits & used and place != "removed" for bits, _, place in of_frame.joints)

    def uses_of(self, row: FrameRow) -> list[Use]:
        """Give the passes of a row, in true time."""
        return list(of_bits(self.tables.uses.by_frame[row.frame], row.passes))

    def uses(self) -> Sequence[Use]:
        """Give every pass, in true time."""
        return self._uses if self.stretch == EVER else self._uses[slice(*self._between)]

    def first_from(self, since_ms: int) -> int | None:
        """Give when the first pass from a moment on was [ms, UTC]; none where none followed."""
        low, high = self._between
        at = max(low, bisect_left(self._uses, since_ms, key=_ended_ms))
        return self._uses[at].at.at_ms if at < high else None

    @cached_property
    def _filed(self) -> Filing:
        """What is filed under the first thing, and used the others as well."""
        together = len(self.things) > 1
        return used_together(self.tables, self.index, self.things) if together else self.index.filed

    @cached_property
    def _uses(self) -> Sequence[Use]:
        return self._filed.uses.get(self.things[0], ())

    @cached_property
    def _between(self) -> tuple[int, int]:
        """From which to before which of all passes they are."""
        if self.stretch == EVER:
            return 0, len(self._uses)
        low, high = (bisect_left(self._uses, end_ms, key=_ended_ms) for end_ms in self.stretch)
        return low, max(low, high)

    def _rows_inside(self, rows: Sequence[FrameRow]) -> list[FrameRow]:
        since_ms, until_ms = self.stretch
        ended = rows[bisect_left(rows, since_ms, key=_last_ms) :]
        kept = (self._row_inside(row) for row in ended if row.first_ms < until_ms)
        return sorted((row for row in kept if row is not None), key=by_last_pass)

    def _row_inside(self, row: FrameRow) -> FrameRow | None:
        since_ms, until_ms = self.stretch
        if since_ms <= row.first_ms and row.last_ms < until_ms:
            return row
        uses = self.tables.uses.by_frame[row.frame]
        low, high = (bisect_left(uses, end_ms, key=_ended_ms) for end_ms in self.stretch)
        passes = row.passes & ((1 << high) - (1 << low)) if low < high else 0
        return only(row, passes, self._filed.frames[row.frame], uses) if passes else None


def _last_ms(row: FrameRow) -> int:
    return row.last_ms


def _ended_ms(use: Use) -> int:
    return use.at.at_ms
