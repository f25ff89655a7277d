"""The gas on each line at each moment: which cylinder, of which lot, since when, and the beads that were due."""

from bisect import bisect_left, bisect_right
from collections.abc import Callable, Mapping, Sequence
from typing import NamedTuple, TypeVar

from server.facts.layered import differing
from server.facts.materials import FillLot
from server.facts.occasion_pass import GasOn
from server.occasions.accepted import Accepted
from server.occasions.days import Days
from server.occasions.filed import refiled
from server.occasions.gas_story import Step, steps_of
from server.occasions.spans import Spans
from server.occasions.tested import Tested, tested_in_order
from server.occasions.timed import Timed, in_order

Told = TypeVar("Told", Timed, Tested)
Changed = tuple[Sequence[Told], Sequence[Told]]
"""What goes and what comes."""


class GasRules(NamedTuple):
    """What a line's story is read by: the lots, which lines purge, the shop's days and its acceptance figures."""

    lots: Mapping[str, FillLot]
    lot_of: Mapping[str, FillLot]
    purge_lines: frozenset[str]
    days: Days
    accepted: Accepted


class GasTable:
    """Every line's story, from its cylinder changes and its beads; a line's is read when somebody asks for it."""

    def __init__(self, rules: GasRules) -> None:
        self._rules = rules
        self.changes: Mapping[str, Sequence[Timed]] = {}
        self.beads: Mapping[str, Sequence[Tested]] = {}
        self._naming: Mapping[tuple[str, str], Sequence[Timed]] = {}
        self._spans: dict[str, Spans[_Told]] = {}
        self._stops: dict[str, Spans[Timed]] = {}

    def with_changes(self, rules: GasRules, changes: Changed[Timed], beads: Changed[Tested]) -> "GasTable":
        """Give the stories with some changes and beads gone and others come; what stays the same is not read again."""
        found = GasTable(rules)
        found.changes = refiled(self.changes, *changes, _of_line, in_order)
        found._naming = refiled(self._naming, *changes, _named, in_order)
        found.beads = refiled(self.beads, *beads, _of_line, tested_in_order)
        # Whoever looks at these stories goes on reading into them.
        found._stops = self._stops.copy()
        if all(old is new for old, new in zip(self._rules, rules, strict=True)):
            found._spans = self._spans.copy()
        for line in (*differing(self.changes, found.changes), *differing(self.beads, found.beads)):
            found._stops.pop(line, None)
            found._spans.pop(line, None)
        return found

    @property
    def purge_lines(self) -> frozenset[str]:
        """The lines that purge."""
        return self._rules.purge_lines

    def at(self, line: str | None, moment_ms: int) -> GasOn | None:
        """Give the gas on a line at a moment; a line nobody ever changed a cylinder on has no cylinder known."""
        if not line:
            return None
        told = self._story(line).at(moment_ms)
        return told.gas_on(self._gas_on) if told else GasOn(line)

    def stops(self, line: str) -> Spans[Timed]:
        """Give the changes of a line at which the gas stood still for a moment; a two-way valve keeps it on."""
        found = self._stops.get(line)
        if found is None:
            changes = self.changes.get(line, ())
            stops = ((each.at.at_ms, each) for each in changes if not each.entry.kept_flowing)
            found = self._stops[line] = Spans(stops)
        return found

    def cylinder_of(self, cylinder: str) -> FillLot | None:
        """Give the fill lot a cylinder belongs to."""
        return self._rules.lot_of.get(cylinder)

    def naming(self, what: str, name: str) -> Sequence[Timed]:
        """Give the changes at which a cylinder came on, or whose cylinder was said to be of a fill lot."""
        return self._naming.get((what, name), ())

    def change_after(self, change: Timed) -> Timed | None:
        """Give the next cylinder change on the same line."""
        return self._change_after(change.entry.line, change.at.at_ms)

    def beads_between(self, line: str, since_ms: int, until_ms: int) -> Sequence[Tested]:
        """Give the beads of a line from `since` on and before `until`."""
        beads = self.beads.get(line, [])
        return beads[bisect_left(beads, since_ms, key=_at_ms) : bisect_left(beads, until_ms, key=_at_ms)]

    def stretches(self, line: str) -> list[tuple[Timed, int | None]]:
        """Give each cylinder change of a line with the time of the next one."""
        changes = self.changes.get(line, [])
        ends: list[int | None] = [each.at.at_ms for each in changes[1:]]
        return list(zip(changes, [*ends, None], strict=True)) if changes else []

    def _story(self, line: str) -> "Spans[_Told]":
        found = self._spans.get(line)
        if found is None:
            rules = self._rules
            steps = steps_of(
                self.changes.get(line, []), self.beads.get(line, []), line in rules.purge_lines, rules.days,
                rules.accepted.at,
            )  # fmt: skip
            found = self._spans[line] = Spans((step.at_ms, _Told(line, step)) for step in steps)
        return found

    def _gas_on(self, line: str, step: Step) -> GasOn:
        change, bead = step.change, step.next_bead
        cylinder = change.entry.on if change else None
        lot = self._lot(cylinder, change)
        following = self._change_after(line, step.at_ms)
        return GasOn(
            line=line,
            cylinder=cylinder,
            fill_lot=lot.id if lot else None,
            lot_released=_released(lot, self._rules.days.day_of(change.at.at_ms)) if change else None,
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
        return self._rules.lot_of.get(cylinder) or (self._rules.lots.get(named) if named else None)


class _Told:
    """One step of a line's story; the gas it tells of is made for the first who asks."""

    __slots__ = ("_line", "_made", "_step")

    def __init__(self, line: str, step: Step) -> None:
        self._line, self._step = line, step
        self._made: GasOn | None = None

    def gas_on(self, make: Callable[[str, Step], GasOn]) -> GasOn:
        """Give the gas on the line from this step on."""
        if self._made is None:
            self._made = make(self._line, self._step)
        return self._made


def _released(lot: FillLot | None, day: int) -> bool | None:
    if lot is None:
        return None
    return lot.released is not None and lot.released.toordinal() <= day


def lots_by_cylinder(lots: Mapping[str, FillLot]) -> Mapping[str, FillLot]:
    """Give, for each cylinder, the lot that names it."""
    return {cylinder: lot for lot in lots.values() for cylinder in lot.cylinders}


def _of_line(told: Tested | Timed) -> tuple[str]:
    return (told.entry.line,)


def _named(change: Timed) -> tuple[tuple[str, str], ...]:
    return ("cylinder", change.entry.on or ""), ("fill lot", change.entry.fill_lot or "")


def _at_ms(told: Tested | Timed) -> int:
    return told.at.at_ms
