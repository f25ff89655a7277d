"""The registers as an outside inspector reads them: qualifications with their continuity, instruments, gas, rods."""

from collections import defaultdict
from datetime import date
from typing import NamedTuple

from server.facts.checking import Bead
from server.facts.equipment import Calibration, Instrument
from server.facts.materials import FillerLot, FillLot, RodSleeve
from server.facts.people import Confirmation, Person, Qualification
from server.facts.registers import Registers
from server.facts.supplies import CylinderChange
from server.occasions.clocks import Clocks
from server.occasions.days import Days, last_day
from server.occasions.qualified_range import words_of
from server.occasions.standings import Standings, standings_of
from server.record.reads import Reads
from server.work.known_shop import shop_now


class Qualified(NamedTuple):
    """One qualification with its confirmations and its last valid day, as date ordinal."""

    qualification: Qualification
    person: Person | None
    confirmed: tuple[Confirmation, ...]
    last: int
    covers: str
    spells: tuple[tuple[int, int], ...]

    def sentence(self, today: int) -> str:
        """Say how it stands on a day."""
        said = date.fromordinal(self.last).strftime("%-d %B %Y")
        if self.qualification.continuity == "used":
            return f"lapse{'d' if today > self.last else 's'} after {said}{_USED[today > self.last]}"
        if today > self.last:
            return f"lapsed after {said}: a confirmation renews nothing now, a new test piece does"
        return f"lapses after {said} unless it is confirmed from logged welds by then"


_USED = (" unless the process is used by then", ": a good coupon restores it")


class Calibrated(NamedTuple):
    """One instrument with its calibrations, newest first, and the last day of the newest good one."""

    instrument: Instrument
    calibrations: tuple[Calibration, ...]
    due: date | None


class OnLine(NamedTuple):
    """A cylinder on a line from a moment to another [ms, UTC]; none while it still is, with its fill lot."""

    line: str
    cylinder: str
    since_ms: int
    until_ms: int | None
    lot: FillLot | None


class LineBands(NamedTuple):
    """One gas line: the cylinders on it in order, and its test beads as (moment, result)."""

    line: str
    cylinders: tuple[OnLine, ...]
    beads: tuple[tuple[int, str], ...]


class Rods(NamedTuple):
    """One filler lot with its sleeves."""

    lot: FillerLot
    sleeves: tuple[RodSleeve, ...]


def qualified(registers: Registers) -> list[Qualified]:
    """Give every qualification, what lapses first on top."""
    return _qualified(registers, standings_of(registers))


def qualified_now(reads: Reads) -> list[Qualified]:
    """Give every qualification as the log has it, which matters where using the process carries one on."""
    registers = reads.registers()
    if all(each.continuity == "confirmed" for each in registers.qualifications.values()):
        return qualified(registers)
    return _qualified(registers, shop_now(reads).tables.standings)


def _qualified(registers: Registers, standings: Standings) -> list[Qualified]:
    found = [
        Qualified(
            each.qualification,
            registers.people.get(each.qualification.welder),
            tuple(c for c in registers.confirmations.values() if c.qualification == each.qualification.id),
            each.last,
            words_of(each.covered),
            each.spells,
        )
        for held in standings.held.values()
        for each in held
    ]
    return sorted(found, key=lambda each: (each.last, each.qualification.id))


def calibrated(registers: Registers) -> list[Calibrated]:
    """Give every instrument, what is due first on top."""
    days = Days(registers.zone)
    found = []
    for instrument in registers.instruments.values():
        own = [each for each in registers.calibrations.values() if each.instrument == instrument.id]
        own.sort(key=lambda each: -each.at)
        good = next((each for each in own if each.result == "pass"), None)
        day = date.fromordinal(days.day_of(good.at)) if good else None
        due = last_day(day, instrument.months) if day and instrument.months else None
        found.append(Calibrated(instrument, tuple(own), due))
    return sorted(found, key=lambda each: (each.due is None, each.due or date.max, each.instrument.id))


def on_lines(reads: Reads) -> list[LineBands]:
    """Give every gas line with the cylinders that were on it and its beads, in true order."""
    registers, clocks = reads.registers(), Clocks(reads.clock_pairs())
    changes: dict[str, list[tuple[int, CylinderChange]]] = defaultdict(list)
    beads: dict[str, list[tuple[int, str]]] = defaultdict(list)
    for it in (each.entry for each in reads.shared_entries()):
        if isinstance(it, CylinderChange):
            changes[it.line].append((clocks.stamp(it).at_ms, it))
        elif isinstance(it, Bead):
            beads[it.line].append((clocks.stamp(it).at_ms, it.result))
    lots = {cylinder: lot for lot in registers.fill_lots.values() for cylinder in lot.cylinders}
    return [
        LineBands(line, tuple(_bands(line, changes[line], lots)), tuple(sorted(beads[line])))
        for line in sorted(set(changes) | set(beads))
    ]


def _bands(line: str, told: list[tuple[int, CylinderChange]], lots: dict[str, FillLot]) -> list[OnLine]:
    ordered = sorted(told, key=lambda each: each[0])
    ends: list[int | None] = [at for at, _ in ordered[1:]]
    return [
        OnLine(line, it.on, at, until, lots.get(it.on))
        for (at, it), until in zip(ordered, [*ends, None], strict=True)
        if it.on
    ]


def rods(registers: Registers) -> list[Rods]:
    """Give every filler lot with its sleeves."""
    return [
        Rods(lot, tuple(each for each in registers.sleeves.values() if each.lot == lot.id))
        for lot in sorted(registers.filler_lots.values(), key=lambda each: each.id)
    ]
