"""Gathers what waits this morning: hold points, then what stops a joint, then what keeps a frame, then what to read."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from server.facts.deciding import Permission
from server.facts.design import Design
from server.facts.judged import Severity, Word
from server.facts.progress import FrameProgress
from server.facts.registers import Registers
from server.judgement.matters import Matter, matters
from server.plan.progress import frame_progress
from server.record.reads import Reads

_LEFT_THE_HOUSE = frozenset({"shipped", "scrapped"})


@dataclass(frozen=True, slots=True)
class HoldPoint:
    """A seam finished and not released, and what waits for it."""

    frame: str
    joint: str
    title: str
    hidden_by: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Held:
    """One question with everything it holds up."""

    question: str
    matters: tuple[Matter, ...]

    @property
    def frames(self) -> tuple[str, ...]:
        """The frames that wait on it."""
        return tuple(sorted({each.finding.frame for each in self.matters if each.finding.frame}))


@dataclass(frozen=True, slots=True)
class MorningList:
    """The sheet, read top-down."""

    hold_points: tuple[HoldPoint, ...]
    look_again: tuple[Matter, ...]
    stops: tuple[Held, ...]
    to_decide: tuple[Held, ...]
    marginal: tuple[Held, ...]
    notes: tuple[Held, ...]
    on_shipped: tuple[Matter, ...]
    frames_waiting: int


def morning_list(reads: Reads) -> MorningList:
    """Gather the list in a fixed number of questions."""
    registers = reads.registers()
    standing = matters(reads.findings(), registers.decisions.values())
    shipped = {each.frame for each in registers.shipments.values()}
    keeping = [each for each in standing if each.keeps_the_frame]
    inside = [each for each in keeping if each.finding.frame not in shipped]
    return MorningList(
        hold_points=_hold_points(reads, registers, shipped),
        look_again=tuple(each for each in keeping if each.state == "look again"),
        stops=_grouped(each for each in inside if _is(each, Severity.STOP)),
        to_decide=_grouped(each for each in inside if _is(each, Severity.DECIDE)),
        marginal=_grouped(each for each in standing if each.finding.verdict.word is Word.MARGINAL),
        notes=_grouped(each for each in standing if _is(each, Severity.NOTE) and each.state == "open"),
        on_shipped=tuple(each for each in keeping if each.finding.frame in shipped),
        frames_waiting=len({each.finding.frame for each in inside if each.finding.frame}),
    )


def _is(matter: Matter, severity: Severity) -> bool:
    verdict = matter.finding.verdict
    return verdict.severity is severity and verdict.word is not Word.MARGINAL and matter.state != "look again"


def _grouped(found: Iterable[Matter]) -> tuple[Held, ...]:
    by_question: dict[str, list[Matter]] = {}
    for matter in found:
        by_question.setdefault(matter.finding.verdict.question, []).append(matter)
    held = [Held(question, tuple(each)) for question, each in by_question.items()]
    return tuple(sorted(held, key=lambda each: (-len(each.frames), each.question)))


def _hold_points(reads: Reads, registers: Registers, shipped: set[str]) -> tuple[HoldPoint, ...]:
    inspected = {each.frame for each in registers.permissions.values() if each.permits != "hold point"}
    at_work = [frame for frame in registers.packets if frame not in shipped | inspected]
    told = reads.frames_entries(at_work)
    found: list[HoldPoint] = []
    for frame in at_work:
        design = registers.designs.get(registers.packets[frame].design)
        if design is not None and told.get(frame):
            progress = frame_progress(design, [each.entry for each in told[frame]])
            found += _waiting(frame, design, progress, registers.permissions.values())
    return tuple(found)


def _waiting(
    frame: str, design: Design, progress: FrameProgress, permissions: Iterable[Permission]
) -> Sequence[HoldPoint]:
    if _LEFT_THE_HOUSE & set(progress.stages):
        return ()
    released = {each.joint for each in permissions if each.frame == frame and each.permits == "hold point"}
    hiding: dict[str, set[str]] = {}
    for cover in design.covers:
        hiding.setdefault(cover.seam, set()).add(cover.by)
    return [
        HoldPoint(frame, joint.id, joint.title, tuple(sorted(hiding[joint.id])))
        for joint in design.joints
        if joint.id in hiding
        and progress.joint(joint.id).finished
        and not progress.joint(joint.id).released
        and joint.id not in released
    ]
