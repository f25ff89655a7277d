"""The gas on each line at each moment: which cylinder, of which lot, since when, and the beads that were due."""

from bisect import bisect_left, bisect_right
from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import TypeVar

from server.facts.equipment import Acceptance
from server.facts.materials import FillLot
from server.facts.occasion_pass import GasOn
from server.occasions.days import Days
from server.occasions.gas_story import Step, steps_of
from server.occasions.spans import Spans
from server.occasions.tested import Tested
from server.occasions.timed import Timed

AcceptedAt = Callable[[int], Mapping[str, Acceptance]]
Told = TypeVar("Told", Timed, Tested)


class GasTable:
    """Every line's story, from its cylinder changes and its beads."""

    def __init__(
        self,
        changes: Iterable[Timed],
        beads: Iterable[Tested],
        lots: Mapping[str, FillLot],
        purge_lines: frozenset[str],
        days: Days,
        accepted_at: AcceptedAt,
    ) -> None:
        self._lots = {cylinder: lot for lot in lots.values() for cylinder in lot.cylinders}
        self._by_id = lots
        self.changes: dict[str, list[Timed]] = _by_line(changes)
        self.beads: dict[str, list[Tested]] = _by_line(beads)
        self._lines_of: dict[str, set[str]] = defaultdict(set)
        for line, of_line in self.changes.items():
            for change in of_line:
                self._lines_of[change.entry.on or ""].add(line)
        self.stops = {line: Spans(_stops(changes)) for line, changes in self.changes.items()}
        self.purge_lines = purge_lines
        self._days = days
        self._accepted_at = accepted_at
        lines = self.changes.keys() | self.beads.keys()
        self._spans = {line: self._told(line) for line in sorted(lines)}

    def at(self, line: str | None, moment_ms: int) -> GasOn | None:
        """Give the gas on a line at a moment; a line nobody ever changed a cylinder on has no cylinder known."""
        if not line:
            return None
        spans = self._spans.get(line)
        return (spans.at(moment_ms) if spans else None) or GasOn(line)

    def cylinder_of(self, cylinder: str) -> FillLot | None:
        """Give the fill lot a cylinder belongs to."""
        return self._lots.get(cylinder)

    def lines_of(self, cylinder: str) -> list[str]:
        """Give the lines a cylinder ever came on."""
        return sorted(self._lines_of.get(cylinder, ()))

    def beads_between(self, line: str, since_ms: int, until_ms: int) -> list[Tested]:
        """Give the beads of a line from `since` on and before `until`."""
        beads = self.beads.get(line, [])
        return beads[bisect_left(beads, since_ms, key=_at_ms) : bisect_left(beads, until_ms, key=_at_ms)]

    def stretches(self, line: str) -> list[tuple[Timed, int | None]]:
        """Give each cylinder change of a line with the time of the next one."""
        changes = self.changes.get(line, [])
        ends: list[int | None] = [each.at.at_ms for each in changes[1:]]
        return list(zip(changes, [*ends, None], strict=True)) if changes else []

    def _told(self, line: str) -> Spans[GasOn]:
        steps = steps_of(
            self.changes.get(line, []),
            self.beads.get(line, []),
            line in self.purge_lines,
            self._days,
            self._accepted_at,
        )
        return Spans((step.at_ms, self._gas_on(line, step)) for step in steps)

    def _gas_on(self, line: str, step: Step) -> GasOn:
        change, bead = step.change, step.next_bead
        cylinder = change.entry.on if change else None
        lot = self._lot(cylinder, change)
        following = self._change_after(line, step.at_ms)
        return GasOn(
            line=line,
            cylinder=cylinder,
            fill_lot=lot.id if lot else None,
            lot_released=_released(lot, self._days.day_of(change.at.at_ms)) if change else None,
            certificate_ppm=lot.oxygen_ppm if lot else None,
            certificate_dew_c=lot.dew_point_c if lot else None,
            certificate_purity_percent=lot.purity_percent if lot else None,
            changed=change.at if change else None,
            change_entry=change.entry.id if change else None,
            bead_due_since=step.due_since,
            next_bead=bead.at if bead else None,
            next_bead_entry=bead.told_in if bead else None,
            next_bead_good=None if bead is None or bead.result == "waiting" else bead.result == "good",
            settled_by=step.settled_by,
            next_change=following.at if following else None,
            next_change_entry=following.entry.id if following else None,
        )

    def _change_after(self, line: str, moment_ms: int) -> Timed | None:
        changes = self.changes.get(line, [])
        number = bisect_right(changes, moment_ms, key=_at_ms)
        return changes[number] if number < len(changes) else None

    def _lot(self, cylinder: str | None, change: Timed | None) -> FillLot | None:
        if cylinder is None:
            return None
        named = change.entry.fill_lot if change else None
        return self._lots.get(cylinder) or (self._by_id.get(named) if named else None)


def _released(lot: FillLot | None, day: int) -> bool | None:
    if lot is None:
        return None
    return lot.released is not None and lot.released.toordinal() <= day


def _stops(changes: Iterable[Timed]) -> Iterator[tuple[int, Timed]]:
    """Changes at which the gas stood still for a moment; a two-way valve keeps it on."""
    return ((change.at.at_ms, change) for change in changes if not change.entry.kept_flowing)


def _by_line(happenings: Iterable[Told]) -> dict[str, list[Told]]:
    found: dict[str, list[Told]] = defaultdict(list)
    for each in happenings:
        found[each.entry.line].append(each)
    return found


def _at_ms(told: Tested | Timed) -> int:
    return told.at.at_ms
