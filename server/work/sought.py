"""What used every one of some things within a time: counted by place and frame from the index, told joint by joint."""

from bisect import bisect_left
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

from server.occasions.tables import Tables
from server.occasions.uses import FAR_MS, Use
from server.work.frame_places import PLACES, Place
from server.work.frame_things import FrameRow, of_bits, row_of
from server.work.thing_index import ThingIndex
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
        fewest = min(self.things, key=self.index.row_counts)
        if len(self.things) == 1 and self.stretch == EVER:
            return dict(self.index.rows_of(fewest))
        others = [each for each in self.things if each != fewest]
        found: dict[Place, Sequence[FrameRow]] = {}
        for place, rows in self.index.rows_of(fewest):
            if kept := [it for row in rows if (it := self._of_both(row, others)) is not None]:
                found[place] = sorted(kept, key=_by_last_pass)
        return found

    @cached_property
    def count(self) -> int:
        """How many joints, each attempt by itself."""
        return sum(self.joints_at(place) for place in PLACES)

    @cached_property
    def passes(self) -> int:
        """How many passes."""
        if self._whole:
            return len(self.index.uses[self.things[0]])
        return sum(row.passes.bit_count() for rows in self.rows.values() for row in rows)

    @cached_property
    def ends_ms(self) -> tuple[int, int]:
        """The first and the last pass [ms, UTC]; of something, which there is."""
        if self._whole:
            uses = self.index.uses[self.things[0]]
            return uses[0].at.at_ms, uses[-1].at.at_ms
        rows = [row for rows in self.rows.values() for row in rows]
        return min(row.first_ms for row in rows), max(row.last_ms for row in rows)

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
        if self._whole:
            return self.index.at(self.things[0], place).joints
        return sum(row.joints for row in self.rows.get(place, ()))

    def has_standing(self, frame: str) -> bool:
        """Tell whether a joint of a frame stands that was not cut out and made anew."""
        if not self._whole:
            return frame in self.frames
        of_frame = self.index.frames[frame]
        used = of_frame.used.get(self.things[0], 0)
        return bool(used) and any(bits & used and place != "removed" for bits, _, place in of_frame.joints)

    def uses_of(self, row: FrameRow) -> list[Use]:
        """Give the passes of a row, in true time."""
        return list(of_bits(self.tables.uses.by_frame[row.frame], row.passes))

    def uses(self) -> Sequence[Use]:
        """Give every pass, in true time."""
        if self._whole:
            return self.index.uses[self.things[0]]
        rows = (row for rows in self.rows.values() for row in rows)
        return self.tables.uses.in_order(use for row in rows for use in self.uses_of(row))

    def first_from(self, since_ms: int) -> int | None:
        """Give when the first pass from a moment on was [ms, UTC]; none where none followed."""
        since_ms = max(since_ms, self.stretch.since_ms)
        if len(self.things) == 1:
            uses = self.index.uses[self.things[0]]
            at = bisect_left(uses, since_ms, key=_ended_ms)
            at_ms = uses[at].at.at_ms if at < len(uses) else FAR_MS
        else:
            at = bisect_left(self._at_ms, since_ms)
            at_ms = self._at_ms[at] if at < len(self._at_ms) else FAR_MS
        return at_ms if at_ms < self.stretch.until_ms else None

    @cached_property
    def _at_ms(self) -> Sequence[int]:
        """When the passes were, in order."""
        frames = self.tables.uses.by_frame
        rows = (row for rows in self.rows.values() for row in rows)
        return sorted(use.at.at_ms for row in rows for use in of_bits(frames[row.frame], row.passes))

    @property
    def _whole(self) -> bool:
        return len(self.things) == 1 and self.stretch == EVER

    def _of_both(self, row: FrameRow, others: Sequence[Thing]) -> FrameRow | None:
        """What of a row used the others as well, within the stretch."""
        of_frame, passes = self.index.frames[row.frame], row.passes
        for thing in others:
            passes &= of_frame.used.get(thing, 0)
        stretch = self.stretch
        if passes and not stretch.since_ms <= row.first_ms <= row.last_ms < stretch.until_ms:
            passes = self._inside(row, passes)
        if passes == row.passes or not passes:
            return row if passes else None
        place = row.key[1]
        here = [(bits, joint) for bits, joint, where in of_frame.joints if where == place]
        return row_of(row.key, self.tables.uses.by_frame[row.frame], passes, here)

    def _inside(self, row: FrameRow, passes: int) -> int:
        if row.last_ms < self.stretch.since_ms or row.first_ms >= self.stretch.until_ms:
            return 0
        uses = self.tables.uses.by_frame[row.frame]
        return sum(1 << at for at, use in enumerate(uses) if passes >> at & 1 and self.stretch.holds(use.at.at_ms))


def _by_last_pass(row: FrameRow) -> tuple[int, str]:
    return row.last_ms, row.frame


def _ended_ms(use: Use) -> int:
    return use.at.at_ms
