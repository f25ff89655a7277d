"""Gathers what waits this morning: hold points, what stops a joint, keeps a frame, was not checked, is to be read."""

from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass
from typing import NamedTuple

from server.facts.frame_papers import shipped_frames
from server.facts.judged import Severity, Word
from server.facts.looked_up import looked_up
from server.facts.registers import Registers
from server.judgement.matters import Matter
from server.record.findings_short import ShortFinding
from server.record.reads import Reads
from server.work.audit_state import AuditedWeek, audited
from server.work.held import Held, OpenOnGone, Sorted, grouped, grouped_gone, in_full
from server.work.hold_points import HoldPoint, hold_points
from server.work.keeping import keeping as what_keeps
from server.work.open_tablets import OpenTablet, open_tablets
from server.work.removed_attempts import last_made
from server.work.short_matters import ShortMatter, ShortMatters
from server.work.who_has_it import back_in_house

LATE = frozenset({"late-entry", "identity-confirmed"})
CLOCKS = frozenset({"clock"})
LAPSES = frozenset({"qualification-lapses", "calibration-due"})
SUSPECT = "held-by-failed-check"
_AGAIN = frozenset({"rework", "repair"})


@dataclass(frozen=True, slots=True)
class Suspected:
    """The joints that rest on one failed check, and are neither let out nor decided yet."""

    check: str
    matters: tuple[Matter, ...]

    @property
    def frames(self) -> tuple[str, ...]:
        """The frames they are on."""
        return tuple(sorted({each.finding.frame for each in self.matters if each.finding.frame}))


@dataclass(frozen=True, slots=True)
class MorningList:
    """The sheet, read top-down; `since_ms` is when the record came to know what a finding rests on, by its key."""

    hold_points: tuple[HoldPoint, ...]
    look_again: tuple[Matter, ...]
    suspected: tuple[Suspected, ...]
    stops: tuple[Held, ...]
    outside: tuple[Held, ...]
    unknown: tuple[Held, ...]
    checks: tuple[Held, ...]
    to_inspect: tuple[Held, ...]
    on_shipped: tuple[OpenOnGone, ...]
    lapses: tuple[Held, ...]
    late: tuple[Held, ...]
    clocks: tuple[Held, ...]
    tablets: tuple[OpenTablet, ...]
    second_looks: tuple[AuditedWeek, ...]
    marginal: tuple[Held, ...]
    notes: tuple[Held, ...]
    frames_waiting: int
    since_ms: dict[str, int]

    def about(self, question: str) -> tuple[Held, ...]:
        """Give everything the sheet holds about one question, wherever it stands on it."""
        every = (self.stops, self.outside, self.unknown, self.checks, self.to_inspect, self.lapses, self.late)
        groups = (each for held in (*every, self.clocks, self.marginal, self.notes) for each in held)
        return tuple(each for each in groups if each.question == question)


class OnShipped(NamedTuple):
    """What is open on frames that left the house: out there, on frames that came back, on seams made anew since."""

    out: tuple[OpenOnGone, ...]
    home: tuple[OpenOnGone, ...]
    removed: tuple[OpenOnGone, ...]


def morning_list(reads: Reads, most: int | None = None) -> MorningList:
    """Gather the list in a fixed number of questions; what is only to be read of a frame that left, its history has.

    Of each question so many findings are read in full, the first by their keys; all of them where no number is told.
    """
    registers = reads.registers()
    short = ShortMatters(reads, registers)
    waits = _what_waits(registers, short, most)
    read = {each.finding.key: each for each in short.in_full(waits.to_read)}
    told = reads.frames_entries(_at_work(registers, shipped_frames(registers)))
    return MorningList(
        hold_points=hold_points(registers, told),
        look_again=_of(waits.again, read),
        suspected=_suspected(_of(waits.suspected, read)),
        **{name: in_full(held, read) for name, held in waits.groups.items()},
        on_shipped=_on_shipped(reads, registers, _of(waits.gone, read)).out,
        tablets=tuple(tablet for each in told.values() for tablet in open_tablets(each)),
        second_looks=tuple(each for each in audited(registers) if each.waiting),
        frames_waiting=waits.frames,
        since_ms=_since(reads, [each for key, each in read.items() if key in waits.keys]),
    )


class _Waits(NamedTuple):
    """What waits in short: by heading, of what was decided on other facts, on failed checks, of frames that left."""

    groups: Mapping[str, tuple[Sorted, ...]]
    again: Sequence[ShortFinding]
    suspected: Sequence[ShortFinding]
    gone: Sequence[ShortFinding]
    keys: Set[str]
    frames: int

    @property
    def to_read(self) -> list[ShortFinding]:
        """What is read in full."""
        shown = (each for held in self.groups.values() for group in held for each in group.shown)
        return [*shown, *self.again, *self.suspected, *self.gone]


def _what_waits(registers: Registers, short: ShortMatters, most: int | None) -> _Waits:
    def read() -> _Waits:
        shipped, keeping, unread = shipped_frames(registers), short.keeping(), short.waiting_on(LATE | CLOCKS | LAPSES)
        inside = [each for each in keeping if each.frame not in shipped]
        return _Waits(
            groups={name: grouped(found, most) for name, found in _sections(inside, unread, short).items()},
            again=[each.finding for each in inside if each.state == "look again"],
            suspected=[each.finding for each in keeping if each.question == SUSPECT and each.state != "look again"],
            gone=[each.finding for each in keeping if each.frame in shipped],
            keys={each.finding.key for each in (*keeping, *unread)},
            frames=len({each.frame for each in inside if each.frame}),
        )

    rests_on = (*short.rests_on, registers.packets, registers.shipments)
    return looked_up(registers, f"waits this morning|{most}", rests_on, read)


def _sections(
    inside: Sequence[ShortMatter], unread: Iterable[ShortMatter], short: ShortMatters
) -> dict[str, list[ShortFinding]]:
    """What stands under which heading."""
    on_frames = [each for each in inside if each.frame and each.question not in {SUSPECT} | LAPSES]
    shared = [each for each in inside if not each.frame and each.question not in LAPSES]
    to_decide = [each for each in on_frames if each.is_a(Severity.DECIDE)]
    entered = [each for each in unread if each.question in LATE | CLOCKS and each.state == "open"]
    return {
        "stops": [each.finding for each in on_frames if each.is_a(Severity.STOP)],
        "outside": [each.finding for each in to_decide if each.finding.word is Word.OUTSIDE],
        "unknown": [each.finding for each in to_decide if each.finding.word is Word.UNKNOWN],
        "checks": [each.finding for each in shared if each.state != "look again"],
        "lapses": [each.finding for each in unread if each.question in LAPSES],
        "late": [each.finding for each in entered if each.question in LATE],
        "clocks": [each.finding for each in entered if each.question in CLOCKS],
        **_to_read(short),
    }


def _to_read(short: ShortMatters) -> dict[str, list[ShortFinding]]:
    """What waits for nobody's decision on frames in the house and on what they share."""
    made_again = list(short.inside_decided(_AGAIN))
    decided = {each.finding.key for each in short.in_full(made_again) if each.state == "decided"}
    not_gating = list(short.inside_not_gating())
    notes = (each for each in not_gating if each.word is not Word.MARGINAL and short.is_open(each.key))
    return {
        "to_inspect": [each for each in made_again if each.key in decided],
        "marginal": [each for each in not_gating if each.word is Word.MARGINAL],
        "notes": [each for each in notes if each.question not in LATE | CLOCKS | LAPSES],
    }


def _of(found: Iterable[ShortFinding], read: Mapping[str, Matter]) -> tuple[Matter, ...]:
    return tuple(read[each.key] for each in found)


def open_on_shipped(reads: Reads) -> OnShipped:
    """Give everything that is open on frames that have left the house: the owner's list, and what is apart from it."""
    registers = reads.registers()
    return _on_shipped(reads, registers, what_keeps(reads, registers, shipped_frames(registers)))


def _on_shipped(reads: Reads, registers: Registers, keeping: Iterable[Matter]) -> OnShipped:
    shipped = shipped_frames(registers)
    keeping = [each for each in keeping if each.finding.frame in shipped]
    back = back_in_house(reads, registers, {each.finding.frame for each in keeping if each.finding.frame})
    made = last_made(reads, keeping)
    still_in = [each for each in keeping if not made.removed(each)]
    return OnShipped(
        out=grouped_gone((each for each in still_in if each.finding.frame not in back), registers),
        home=grouped_gone((each for each in still_in if each.finding.frame in back), registers),
        removed=grouped_gone((each for each in keeping if made.removed(each)), registers),
    )


def _at_work(registers: Registers, shipped: Set[str]) -> list[str]:
    papers = registers.packets, registers.shipments, registers.permissions

    def read() -> list[str]:
        inspected = {each.frame for each in registers.permissions.values() if each.permits != "hold point"}
        return [frame for frame in registers.packets if frame not in shipped and frame not in inspected]

    return looked_up(registers, "at work", papers, read)


def _suspected(keeping: Iterable[Matter]) -> tuple[Suspected, ...]:
    of_check: dict[str, list[Matter]] = {}
    for matter in keeping:
        of_check.setdefault(str(matter.finding.verdict.value), []).append(matter)
    return tuple(Suspected(check, tuple(each)) for check, each in sorted(of_check.items()))


def _since(reads: Reads, keeping: Sequence[Matter]) -> dict[str, int]:
    """When the record first knew the newest entry a finding rests on; paper alone tells no time of its own."""
    rests_on = {each.finding.key: each.finding.verdict.rests_on for each in keeping}
    arrived = reads.arrivals_of(name for names in rests_on.values() for name in names)
    known = {key: [arrived[name] for name in names if name in arrived] for key, names in rests_on.items()}
    return {key: max(found) for key, found in known.items() if found}
