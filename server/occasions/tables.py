"""Every look-up table of the shop as known at one record position, made once per batch."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date
from itertools import chain
from typing import TypeVar

from server.facts.deciding import Permission
from server.facts.design import Joint
from server.facts.equipment import Acceptance
from server.facts.materials import Piece
from server.facts.recorded import Recorded
from server.occasions.accepted import Accepted
from server.occasions.clocks import Clocks
from server.occasions.corrections import Corrections
from server.occasions.cross_checks import with_differences
from server.occasions.curves import Curves
from server.occasions.days import Days
from server.occasions.doubts import Doubts
from server.occasions.drawings import Drawing
from server.occasions.failed_checks import (
    FailedCheck,
    failed_beads,
    failed_calibrations,
    failed_coupons,
    failed_cross_checks,
)
from server.occasions.gas import GasTable
from server.occasions.known import Known
from server.occasions.narrowed import Cuts, true_from_curve
from server.occasions.pictures import Pictures
from server.occasions.revisions import Revisions
from server.occasions.rods import Rods
from server.occasions.standings import standings_of
from server.occasions.tested import Tested, with_results
from server.occasions.timed import Timed, in_true_time
from server.occasions.uses import Use, Uses

OfAFrame = TypeVar("OfAFrame", Piece, Permission)


class Tables:
    """All tables; `on` is the day everything is held against, none for the day of each weld."""

    def __init__(self, known: Known, on: date | None) -> None:
        registers = known.registers
        self.known = known
        self.registers = registers
        self.days = Days(registers.zone)
        self.clocks = Clocks(known.clocks)
        self.corrections = Corrections(known.shared)
        held_on = on.toordinal() if on else None
        self.accepted = Accepted(registers.acceptance.values(), held_on)
        self.revisions = Revisions(registers.procedures.values(), held_on)
        self.doubts = Doubts(registers.instruments.values())
        self.drawings = {design.name: Drawing(design) for design in registers.designs.values()}
        self.packet_of = {packet.frame: packet for packet in registers.packets.values()}
        self.torch_lines = frozenset(bench.torch_line for bench in registers.benches.values())
        self.shipped = frozenset(shipment.frame for shipment in registers.shipments.values())
        self.pieces_of: dict[str, list[Piece]] = _by_frame(registers.pieces.values())
        self.permissions_of: dict[str, list[Permission]] = _by_frame(registers.permissions.values())
        self.end_ms = _last_known_ms(known)
        self.today = self.days.day_of(self.end_ms)
        self._read_shared()
        self.uses = Uses(self.read(known.passes), self.days, self.gas)
        self.standings = standings_of(registers, self._days_of_welders(), self._days_of_coupons())
        self.failed = self._failed_checks()
        self.cuts = Cuts(registers.narrowings.values(), self.moment_of)
        self.curves = Curves(self.failed["calibration"], self.cuts)
        self.pictures = Pictures(self.read(known.photos), self.shared["arrived"], self.accepted, self.days)

    def read(self, recorded: Iterable[Recorded]) -> list[Timed]:
        """Give entries as they stand, in true time."""
        return in_true_time(self.corrections.applied(list(recorded)), self.clocks)

    def at(self, day: int) -> Mapping[str, Acceptance]:
        """Give the acceptance figures of a day."""
        return self.accepted.at(day)

    def moment_of(self, entry: str) -> int | None:
        """Give the true time of a shared entry by its id."""
        found = self.by_id.get(entry)
        return found.at.at_ms if found else None

    def drawing_of(self, frame: str) -> Drawing | None:
        """Give the drawing a frame is built to."""
        packet = self.packet_of.get(frame)
        return self.drawings.get(packet.design) if packet else None

    def joint_of(self, frame: str, joint: str) -> Joint | None:
        """Give a joint of a frame as its drawing has it."""
        drawing = self.drawing_of(frame)
        return drawing.joints.get(joint) if drawing else None

    def procedure_of(self, use: Use) -> str | None:
        """Give the name of the procedure a pass was made under."""
        joint = self.joint_of(use.frame, use.joint)
        return joint.procedure if joint else None

    def over_by_curve(self, use: Use) -> bool:
        """Tell whether a reading put right by a signed curve lies over the limit of its day."""
        failed = self.curves.for_reading(use.oxygen_by, use.at.at_ms)
        procedure = self.procedure_of(use)
        if failed is None or use.oxygen_ppm is None or procedure is None:
            return False
        limit = self.revisions.limits(self.revisions.judged_by(procedure, use.day), "", use.run).get("oxygen")
        high = limit.high if limit else None
        return high is not None and true_from_curve(failed.as_found, use.oxygen_ppm) > high

    def every_failed(self) -> Iterator[FailedCheck]:
        """Give every failed check, kind by kind."""
        return chain.from_iterable(self.failed.values())

    def checks_about(self, thing: str) -> Sequence[Tested]:
        """Give the checks of one thing, in true time."""
        return self._checks_about.get(thing, ())

    def failed_for(self, kind: str, thing: str | None) -> Iterable[FailedCheck]:
        """Give the failed checks of one kind about one thing."""
        return self._failed_by_thing.get((kind, thing), ())

    def _read_shared(self) -> None:
        registers = self.registers
        by_kind: dict[str, list[Timed]] = defaultdict(list)
        shared = self.read(self.known.shared)
        for timed in shared:
            by_kind[timed.entry.kind].append(timed)
        self.shared = by_kind
        self.by_id = {timed.entry.id: timed for timed in shared}
        self.beads: list[Tested] = with_results(by_kind["bead"])
        self.coupons: list[Tested] = with_results(by_kind["coupon"])
        self.checks: list[Tested] = with_differences(by_kind["check"], self.days, self.at)
        self._checks_about: dict[str, list[Tested]] = defaultdict(list)
        for check in self.checks:
            self._checks_about[check.entry.subject].append(check)
        self.traces = {timed.entry.of: timed for timed in by_kind["trace"]}
        purge_lines = frozenset(bench.purge_line for bench in registers.benches.values())
        self.gas = GasTable(by_kind["cylinder"], self.beads, registers.fill_lots, purge_lines, self.days, self.at)
        self.rods = Rods(by_kind["sleeve"], registers.sleeves, registers.filler_lots)

    def _days_of_welders(self) -> dict[str, set[int]]:
        return {welder: {use.day for use in uses} for welder, uses in self.uses.by_welder.items()}

    def _days_of_coupons(self) -> dict[str, set[int]]:
        found: dict[str, set[int]] = defaultdict(set)
        for each in self.coupons:
            if each.result == "good":
                found[each.entry.welder].add(self.days.day_of(each.at.at_ms))
        return found

    def _failed_checks(self) -> dict[str, list[FailedCheck]]:
        found = {
            "bead": failed_beads(self.gas.beads, self.gas.purge_lines),
            "coupon": failed_coupons(self.coupons),
            "calibration": failed_calibrations(self.registers.calibrations.values()),
            "cross-check": failed_cross_checks(self.checks, self._opens_a_set),
        }
        self._failed_by_thing: dict[tuple[str, str | None], list[FailedCheck]] = defaultdict(list)
        for kind, each_kind in found.items():
            for each in each_kind:
                self._failed_by_thing[kind, each.thing].append(each)
        self.failed_things = frozenset(thing for _, thing in self._failed_by_thing)
        self.instrument_failed = bool(found["calibration"] or found["cross-check"])
        return found

    def _opens_a_set(self, check: Tested) -> bool:
        return "cross_check_opens_a_set" in self.at(self.days.day_of(check.at.at_ms))


def _last_known_ms(known: Known) -> int:
    if known.now_ms is not None:
        return known.now_ms
    return max((each.received_ms for each in (*known.shared, *known.passes)), default=0)


def _by_frame(nouns: Iterable[OfAFrame]) -> dict[str, list[OfAFrame]]:
    found: dict[str, list[OfAFrame]] = defaultdict(list)
    for noun in nouns:
        found[noun.frame].append(noun)
    return found
