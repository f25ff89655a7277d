"""Tells one frame's whole story from the record: its packet, its joints attempt by attempt, and what was decided."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import TypeAlias, TypeVar

from server.facts.checking import Reading
from server.facts.clock import Stamp
from server.facts.deciding import Concession, Decision, Nonconformity, Permission
from server.facts.design import Design, Joint
from server.facts.entry import JointEntry
from server.facts.frame_papers import (
    concessions_of,
    decisions_on,
    nonconformities_of,
    ownerships_of,
    permissions_of,
    shipments_of,
)
from server.facts.judged import Verdict
from server.facts.log import AnyEntry
from server.facts.orders import Customer, Ownership, Packet, Shipment
from server.facts.passage import Correction
from server.facts.progress import FrameProgress
from server.facts.recorded import Recorded
from server.facts.registers import Registers
from server.facts.subject import read_joint_subject
from server.facts.supplies import Problem, Trace
from server.judgement.matters import Matter, matters_among
from server.occasions.clocks import Clocks
from server.plan.progress import frame_progress
from server.record.lines import StoredLine
from server.record.reads import Reads
from server.work.known_serial import no_such_serial, unknown_then
from server.work.refusal import NotThere

_Item = TypeVar("_Item")
_Place: TypeAlias = tuple[str, int]
"""A joint and the number of the attempt at it."""
_ByPlace: TypeAlias = dict[_Place, list[_Item]]


@dataclass(frozen=True, slots=True)
class Told:
    """One entry with its true time, when it arrived, and the later entries that mend it."""

    recorded: Recorded
    stamp: Stamp
    mended_by: tuple[Correction, ...] = ()

    @property
    def entry(self) -> AnyEntry:
        """What was told."""
        return self.recorded.entry

    @property
    def clock_off_ms(self) -> int:
        """How far the device's own time was from the true one; small differences are the journey, not the clock."""
        return self.entry.happened - self.stamp.at_ms


@dataclass(frozen=True, slots=True)
class AttemptStory:
    """One attempt at a joint: its entries in true order, every verdict about it, and where its findings stand."""

    number: int
    told: tuple[Told, ...]
    verdicts: tuple[Verdict, ...]
    matters: tuple[Matter, ...]


@dataclass(frozen=True, slots=True)
class JointStory:
    """One joint of the design, attempt by attempt; an untouched joint has none.

    `apart` is of the joint and belongs to no attempt at it: readings taken on their own, problems, machine recordings.
    """

    joint: Joint
    attempts: tuple[AttemptStory, ...]
    apart: tuple[Told, ...] = ()


@dataclass(frozen=True, slots=True)
class FrameStory:
    """Everything the record holds of one frame, as known at one position."""

    packet: Packet
    design: Design | None
    progress: FrameProgress
    joints: tuple[JointStory, ...]
    of_frame: tuple[Told, ...]
    frame_matters: tuple[Matter, ...]
    decisions: tuple[Decision, ...]
    permissions: tuple[Permission, ...]
    concessions: tuple[Concession, ...]
    nonconformities: tuple[Nonconformity, ...]
    shipments: tuple[Shipment, ...]
    owners: tuple[tuple[Ownership, Customer | None], ...]
    not_understood: tuple[StoredLine, ...]
    known_at: int

    @property
    def matters(self) -> list[Matter]:
        """Every finding on its joints and on the frame itself, decided or not."""
        every = (each for joint in self.joints for attempt in joint.attempts for each in attempt.matters)
        return [*every, *self.frame_matters]

    @property
    def open_matters(self) -> list[Matter]:
        """Everything that keeps the frame, or would have kept it."""
        return [each for each in self.matters if each.keeps_the_frame]


def frame_history(reads: Reads, frame: str, known_at: int | None = None) -> FrameStory:
    """Gather the story in a fixed number of questions; raises `NotThere` for a serial no packet names."""
    registers = reads.registers(known_at)
    packet = registers.packets.get(frame)
    if packet is None:
        raise NotThere(_unknown(reads, frame, known_at))
    design = registers.designs.get(packet.design)
    told = tell(reads, reads.frame_entries(frame, known_at), known_at)
    findings = reads.findings(frame=frame, known_at=known_at)
    standing = matters_among(findings, registers)
    verdicts = reads.verdicts_of_frame(frame, known_at)
    joints = _joints(design, told, standing, [each for found in verdicts.values() for each in found])
    return FrameStory(
        packet=packet,
        design=design,
        progress=frame_progress(design, [each.entry for each in told]) if design else FrameProgress(),
        joints=joints,
        of_frame=tuple(each for each in told if not isinstance(each.entry, JointEntry)),
        frame_matters=tuple(each for each in standing if read_joint_subject(each.finding.verdict.subject) is None),
        decisions=decisions_on(registers, frame, [each.key for each in findings]),
        permissions=permissions_of(registers, frame),
        concessions=concessions_of(registers, frame),
        nonconformities=nonconformities_of(registers, frame),
        shipments=shipments_of(registers, frame),
        owners=_owners(registers, frame),
        not_understood=tuple(reads.not_understood_of_frame(frame, known_at)),
        known_at=_reached(reads, known_at),
    )


def _reached(reads: Reads, known_at: int | None) -> int:
    last = reads.last_position()
    return last if known_at is None else min(known_at, last)


def _unknown(reads: Reads, frame: str, known_at: int | None) -> str:
    packets = reads.registers().packets
    then = None if known_at is None else unknown_then(frame, known_at, packets)
    return then or no_such_serial(frame, packets, "serials are on the job packets, see the list")


def tell(reads: Reads, entries: Iterable[Recorded], known_at: int | None = None) -> list[Told]:
    """Put entries into the order in which they truly happened."""
    every = list(entries)
    clocks = Clocks(reads.clock_pairs_for(every, known_at))
    mending: dict[str, list[Correction]] = {}
    for each in every:
        if isinstance(each.entry, Correction):
            mending.setdefault(each.entry.of, []).append(each.entry)
    told = [Told(each, clocks.stamp(each.entry), tuple(mending.get(each.entry.id, ()))) for each in every]
    return sorted(told, key=lambda each: (each.stamp.at_ms, each.stamp.device, each.stamp.seq))


def _joints(
    design: Design | None, told: list[Told], standing: list[Matter], verdicts: list[Verdict]
) -> tuple[JointStory, ...]:
    if design is None:
        return ()
    entries = ((_place(each.entry), each) for each in told)
    about = ((_of(each.subject.partition("~")[0]), each) for each in verdicts)
    matters = ((_of(each.finding.verdict.subject), each) for each in standing)
    by_place = _by_place(entries), _by_place(about), _by_place(matters)
    apart = _apart(told)
    numbers: dict[str, list[int]] = {}
    for joint, number in sorted(by_place[0]):
        numbers.setdefault(joint, []).append(number)
    return tuple(
        JointStory(
            each,
            tuple(_attempt((each.id, number), *by_place) for number in numbers.get(each.id, ())),
            tuple(apart.get(each.id, ())),
        )
        for each in design.joints
    )


def _apart(told: list[Told]) -> dict[str, list[Told]]:
    """What is of a joint and no entry about an attempt at it; a recording is of the joint of its pass."""
    joint_of = {each.entry.id: each.entry.joint for each in told if isinstance(each.entry, JointEntry)}
    found: dict[str, list[Told]] = {}
    for each in told:
        entry = each.entry
        apart = entry.joint if isinstance(entry, Reading | Problem) else None
        if joint := joint_of.get(entry.of) if isinstance(entry, Trace) else apart:
            found.setdefault(joint, []).append(each)
    return found


def _attempt(
    place: _Place, told: _ByPlace[Told], verdicts: _ByPlace[Verdict], matters: _ByPlace[Matter]
) -> AttemptStory:
    every = (tuple(told[place]), tuple(verdicts.get(place, ())), tuple(matters.get(place, ())))
    return AttemptStory(place[1], *every)


def _by_place(found: Iterable[tuple[_Place | None, _Item]]) -> _ByPlace[_Item]:
    by_place: _ByPlace[_Item] = {}
    for place, each in found:
        if place is not None:
            by_place.setdefault(place, []).append(each)
    return by_place


def _place(entry: AnyEntry) -> _Place | None:
    return (entry.joint, entry.attempt) if isinstance(entry, JointEntry) else None


def _of(subject: str) -> _Place | None:
    found = read_joint_subject(subject)
    return (found.joint, found.attempt) if found else None


def _owners(registers: Registers, frame: str) -> tuple[tuple[Ownership, Customer | None], ...]:
    owned = sorted(ownerships_of(registers, frame), key=lambda each: each.since)
    return tuple((each, registers.customers.get(each.customer)) for each in owned)
