"""Finds the joints a laboratory should compare a joint with: of its frame, else of its design and week."""

from collections.abc import Iterable, Iterator, Sequence
from itertools import islice
from typing import NamedTuple

from server.facts.occasion_joint import JointOccasion
from server.occasions.failed_checks import FailedCheck
from server.occasions.suspects import failed_about, stays_in
from server.occasions.tables import Tables
from server.occasions.uses import Use

_MOST_CONTROLS = 3
_A_WEEK_MS = 7 * 86_400_000
_A_DAY_MS = 86_400_000
_Rank = tuple[bool, bool, bool, bool, int]


class Control(NamedTuple):
    """A joint to compare with: what differs, what is the same, and the pass it rests on."""

    subject: str
    differs: str
    same: str
    entry: str


def nearest_controls(tables: Tables, joint: JointOccasion, *, bad_gas: bool) -> Iterator[Control]:
    """Give joints that differ in cylinder, sleeve or welder and that no failed check keeps; the most alike first.

    Those of the frame come before those of the day, these before those of the week, so where some are enough nobody
    looks further; where the gas is in doubt, one on other gas comes before all.
    """
    own = [use for use in tables.uses.by_frame.get(joint.frame, ()) if use.subject == joint.subject]
    if not own:
        return
    search = _Search(tables, joint, own[-1], bad_gas)
    for uses in (search.of_frame, search.of_frame_and_day, search.of_week):
        found = list(islice(search.fitting(uses()), _MOST_CONTROLS))
        if len(found) == _MOST_CONTROLS and not any(search.rank(use)[0] for use in found):
            break
    yield from (_control(tables, use, search.last) for use in found)


class _Search(NamedTuple):
    tables: Tables
    joint: JointOccasion
    last: Use
    bad_gas: bool

    def of_week(self) -> Sequence[Use]:
        """The passes from a week before to a week after."""
        at_ms = self.last.at.at_ms
        return self.tables.uses.between(at_ms - _A_WEEK_MS, at_ms + _A_WEEK_MS)

    def of_frame(self) -> Sequence[Use]:
        """Those of them on the same frame."""
        at_ms, of_frame = self.last.at.at_ms, self.tables.uses.by_frame[self.last.frame]
        return [use for use in of_frame if abs(use.at.at_ms - at_ms) < _A_WEEK_MS]

    def of_frame_and_day(self) -> Sequence[Use]:
        """Those on the same frame, and those of the same day."""
        at_ms = self.last.at.at_ms
        near = self.tables.uses.between(at_ms - 2 * _A_DAY_MS, at_ms + 2 * _A_DAY_MS)
        return [*self.of_frame(), *(use for use in near if use.day == self.last.day)]

    def fitting(self, uses: Iterable[Use]) -> Iterator[Use]:
        """Give one pass of each joint that may be compared with, in the order of rank."""
        by_frame: dict[str, list[Use]] = {}
        for use in uses:
            by_frame.setdefault(use.frame, []).append(use)
        own = self.tables.drawing_of(self.last.frame)
        alike = [of_one for frame, of_one in by_frame.items() if self.tables.drawing_of(frame) is own]
        others = {use.subject: use for of_one in alike for use in self._of_frame(of_one)}
        differing = [use for use in others.values() if _differs(self.tables, use, self.last)]
        ranked = sorted((self.rank(use), use.subject) for use in differing)
        return (others[subject] for _, subject in ranked if not self._kept(others[subject]))

    def _of_frame(self, uses: Sequence[Use]) -> Iterator[Use]:
        """Those passes of one frame that may be compared with and stand for their joint."""
        last = self._last_in_week(uses[0].frame)
        return (use for use in uses if use is last[use.joint, use.attempt] and self._comparable(use))

    def rank(self, use: Use) -> _Rank:
        """How far from the joint: other gas where the gas is in doubt, then frame, day, welder, time."""
        last = self.last
        other_gas = _cylinder(self.tables, use) != _cylinder(self.tables, last)
        apart = abs(use.at.at_ms - last.at.at_ms)
        doubted = self.bad_gas and not other_gas
        return doubted, use.frame != last.frame, use.day != last.day, use.welder != last.welder, apart

    def _comparable(self, use: Use) -> bool:
        tables, last = self.tables, self.last
        joint, own = tables.joint_of(use.frame, use.joint), tables.joint_of(last.frame, last.joint)
        return bool(joint and own and joint.structural == own.structural)

    def _last_in_week(self, frame: str) -> dict[tuple[str, int], Use]:
        """A joint is told by its last pass within the week."""
        until_ms = self.last.at.at_ms + _A_WEEK_MS
        return {(use.joint, use.attempt): use for use in self.tables.uses.by_frame[frame] if use.at.at_ms < until_ms}

    def _kept(self, use: Use) -> bool:
        """Tell whether a set near the joint, or one that holds it, holds this one as well; itself it never fits."""
        if use.subject == self.joint.subject:
            return True
        uses = [each for each in self.tables.uses.by_frame[use.frame] if each.subject == use.subject]
        reaching = filter(self._near, failed_about(self.tables, uses))
        return any(stays_in(self.tables, failed, uses) for failed in reaching)

    def _near(self, failed: FailedCheck) -> bool:
        ended = [each.ended.at_ms for each in self.joint.passes]
        since_ms = failed.since_ms if failed.since_ms is not None else 0
        near = bool(ended) and since_ms <= max(ended) + _A_WEEK_MS and min(ended) - _A_WEEK_MS <= failed.until_ms
        return near or failed.check in {hold.check for hold in self.joint.holds}


def _cylinder(tables: Tables, use: Use) -> str | None:
    on = tables.gas.at(use.purge_line, use.at.at_ms)
    return on.cylinder if on else None


def _differs(tables: Tables, use: Use, last: Use) -> list[str]:
    found = []
    if _cylinder(tables, use) != _cylinder(tables, last):
        found.append(f"purge cylinder {_cylinder(tables, use) or 'not recorded'}")
    if use.sleeve and use.sleeve != last.sleeve:
        found.append(f"sleeve {use.sleeve}")
    if use.welder != last.welder:
        found.append(f"welder {use.welder}")
    return found


def _control(tables: Tables, use: Use, last: Use) -> Control:
    same = ["frame" if use.frame == last.frame else "design"]
    same += ["day"] * (use.day == last.day) + ["welder"] * (use.welder == last.welder)
    return Control(use.subject, ", ".join(_differs(tables, use, last)), ", ".join(same), use.entry)
