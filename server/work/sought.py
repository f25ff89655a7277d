"""What used every one of some things within a time: counted by place and frame from the index, told joint by joint."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from server.facts.in_parts import first_at
from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.work.frame_places import PLACES, Place
from server.work.frame_things import FrameRow
from server.work.stretch import EVER, Stretch, ended_ms
from server.work.thing_filing import Filing
from server.work.thing_index import ThingIndex
from server.work.used_together import used_together
from server.work.what_things import Thing


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
        return dict(self._filed.rows_of(self.things[0]))

    @cached_property
    def count(self) -> int:
        """How many joints, each attempt by itself."""
        return sum(self.joints_at(place) for place in PLACES)

    @property
    def passes(self) -> int:
        """How many passes."""
        return len(self.uses)

    @property
    def ends_ms(self) -> tuple[int, int]:
        """The first and the last pass [ms, UTC]; of something, which there is."""
        return self.uses[0].at.at_ms, self.uses[-1].at.at_ms

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
        return self._filed.at(self.things[0], place).joints

    def has_standing(self, frame: str) -> bool:
        """Tell whether a joint of a frame stands that was not cut out and made anew."""
        of_frame = self._filed.frames.get(frame)
        used = of_frame.used.get(self.things[0], 0) if of_frame else 0
        return of_frame is not None and any(bits & used and place != "removed" for bits, _, place in of_frame.joints)

    @cached_property
    def uses(self) -> Sequence[Use]:
        """Every pass, in true time."""
        return self._filed.uses.get(self.things[0], ())

    def first_from(self, since_ms: int) -> int | None:
        """Give when the first pass from a moment on was [ms, UTC]; none where none followed."""
        at = first_at(self.uses, since_ms, ended_ms)
        return self.uses[at].at.at_ms if at < len(self.uses) else None

    @cached_property
    def _filed(self) -> Filing:
        """What is filed under the first thing, used the others as well, and was welded within the time."""
        if len(self.things) == 1 and self.stretch == EVER:
            return self.index.filed
        return used_together(self.tables, self.index, self.things, self.stretch)
