"""Gathers what waits this morning: hold points, what stops a joint, keeps a frame, was not checked, is to be read."""

from collections.abc import Iterable, Sequence, Set
from dataclasses import dataclass
from typing import NamedTuple

from server.facts.frame_papers import shipped_frames
from server.facts.judged import Severity, Word
from server.facts.registers import Registers
from server.judgement.matters import Matter, matters_among
from server.record.reads import Reads
from server.work.audit_state import AuditedWeek, audited
from server.work.held import Held, OpenOnGone, grouped, grouped_gone
from server.work.hold_points import HoldPoint, hold_points
from server.work.keeping import keeping as what_keeps
from server.work.keeping import waiting_on
from server.work.open_tablets import OpenTablet, open_tablets
from server.work.removed_attempts import last_made
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


def morning_list(reads: Reads) -> MorningList:
    """Gather the list in a fixed number of questions; what is only to be read of a frame that left, its history has."""
    registers = reads.registers()
    shipped = shipped_frames(registers)
    at_home = [frame for frame in registers.packets if frame not in shipped]
    standing = matters_among(reads.findings(frames=at_home, shared=True), registers)
    keeping = what_keeps(reads, registers)
    inside = [each for each in keeping if each.finding.frame not in shipped]
    told = reads.frames_entries(_at_work(registers, shipped))
    on_frames = [each for each in inside if each.finding.frame and _asks(each) not in {SUSPECT} | LAPSES]
    to_decide = [each for each in on_frames if _is(each, Severity.DECIDE)]
    shared = [each for each in inside if not each.finding.frame and _asks(each) not in LAPSES]
    unread = waiting_on(reads, registers, LATE | CLOCKS | LAPSES)
    lapses = [each for each in unread if _asks(each) in LAPSES]
    entered = [each for each in unread if _asks(each) in LATE | CLOCKS and each.state == "open"]
    return MorningList(
        hold_points=hold_points(registers, told),
        look_again=tuple(each for each in inside if each.state == "look again"),
        suspected=_suspected(keeping),
        stops=grouped(each for each in on_frames if _is(each, Severity.STOP)),
        outside=grouped(each for each in to_decide if each.finding.verdict.word is Word.OUTSIDE),
        unknown=grouped(each for each in to_decide if each.finding.verdict.word is Word.UNKNOWN),
        checks=grouped(each for each in shared if each.state != "look again"),
        to_inspect=grouped(each for each in standing if _is_made_again(each)),
        on_shipped=_on_shipped(reads, registers, keeping).out,
        lapses=grouped(lapses),
        late=grouped(each for each in entered if _asks(each) in LATE),
        clocks=grouped(each for each in entered if _asks(each) in CLOCKS),
        tablets=tuple(tablet for each in told.values() for tablet in open_tablets(each)),
        second_looks=tuple(each for each in audited(registers) if each.waiting),
        marginal=grouped(each for each in standing if each.finding.verdict.word is Word.MARGINAL),
        notes=grouped(each for each in standing if _is_note(each)),
        frames_waiting=len({each.finding.frame for each in inside if each.finding.frame}),
        since_ms=_since(reads, [*keeping, *lapses, *entered]),
    )


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
    inspected = {each.frame for each in registers.permissions.values() if each.permits != "hold point"}
    past = shipped | inspected
    return [frame for frame in registers.packets if frame not in past]


def _asks(matter: Matter) -> str:
    return matter.finding.verdict.question


def _is(matter: Matter, severity: Severity) -> bool:
    verdict = matter.finding.verdict
    return verdict.severity is severity and verdict.word is not Word.MARGINAL and matter.state != "look again"


def _is_note(matter: Matter) -> bool:
    return _is(matter, Severity.NOTE) and matter.state == "open" and _asks(matter) not in LATE | CLOCKS | LAPSES


def _is_made_again(matter: Matter) -> bool:
    return matter.state == "decided" and matter.decision is not None and matter.decision.choice in _AGAIN


def _suspected(keeping: Iterable[Matter]) -> tuple[Suspected, ...]:
    of_check: dict[str, list[Matter]] = {}
    for matter in keeping:
        if _asks(matter) == SUSPECT and matter.state != "look again":
            of_check.setdefault(str(matter.finding.verdict.value), []).append(matter)
    return tuple(Suspected(check, tuple(each)) for check, each in sorted(of_check.items()))


def _since(reads: Reads, keeping: Sequence[Matter]) -> dict[str, int]:
    """When the record first knew the newest entry a finding rests on; paper alone tells no time of its own."""
    rests_on = {each.finding.key: each.finding.verdict.rests_on for each in keeping}
    arrived = reads.arrivals_of(name for names in rests_on.values() for name in names)
    known = {key: [arrived[name] for name in names if name in arrived] for key, names in rests_on.items()}
    return {key: max(found) for key, found in known.items() if found}
