"""Opens a containment from what shares a doubt, and writes who was told, when, and what came back."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple, get_args

from server.facts.containment import Containment, ContainmentAct, ContainmentStep
from server.facts.moment import show_moment
from server.facts.registers import Registers
from server.record.reads import Reads
from server.record.written import Written
from server.work.refusal import NotThere, Refusal
from server.work.told_once import told_once
from server.work.who_has_it import last_shipment, who_has_it

ACTS: tuple[ContainmentAct, ...] = get_args(ContainmentAct)
_LEAST_WORDS = 3


class ContainmentRefused(Refusal):
    """A containment that may not stand as it was told; each problem says why and what to do."""


@dataclass(frozen=True, slots=True)
class ContainmentTold:
    """A containment about to be opened."""

    title: str
    frames: tuple[str, ...]
    because: str
    notice: str
    written_by: str
    asked: str = ""
    claim: str = ""


@dataclass(frozen=True, slots=True)
class ActTold:
    """Something done about one frame, about to be written."""

    containment: str
    frame: str
    act: str
    at_ms: int
    words: str
    written_by: str
    to: str = ""


class FrameContained(NamedTuple):
    """One frame of a containment: who has it since when [ms, UTC], and what was done in order of time."""

    frame: str
    has_it: str
    shipped_ms: int | None
    steps: tuple[ContainmentStep, ...]

    @property
    def stands(self) -> str:
        """Say in a word how it stands."""
        return self.steps[-1].act if self.steps else "not told yet"


class ContainmentFile(NamedTuple):
    """A containment with its frames, those nobody was told about first."""

    paper: Containment
    frames: tuple[FrameContained, ...]

    @property
    def waiting(self) -> list[FrameContained]:
        """The frames not done with."""
        return [each for each in self.frames if each.stands != "done"]


def containment_file(registers: Registers, number: str) -> ContainmentFile:
    """Give one containment; raises `NotThere` for a number none has."""
    paper = registers.containments.get(number)
    if paper is None:
        raise NotThere(f"{number!r} is no containment the record knows; they are listed under containments")
    steps = [each for each in registers.containment_steps.values() if each.containment == number]
    frames = [_contained(registers, frame, steps) for frame in paper.frames]
    return ContainmentFile(paper, tuple(sorted(frames, key=lambda each: (bool(each.steps), each.frame))))


def _contained(registers: Registers, frame: str, steps: Sequence[ContainmentStep]) -> FrameContained:
    shipment = last_shipment(registers, frame)
    own = sorted((each for each in steps if each.frame == frame), key=lambda each: each.at)
    return FrameContained(frame, who_has_it(registers, frame), shipment.at if shipment else None, tuple(own))


def contain(reads: Reads, told: ContainmentTold, now_ms: int) -> Written[str]:
    """Append the containment and answer its number; raises `ContainmentRefused`."""
    registers, position = reads.registers(), reads.last_position()
    problems = _wrong(told, registers)
    if problems:
        raise ContainmentRefused(*problems)
    paper: dict[str, Any] = {
        "kind": "containment",
        "id": f"CT-{position + 1}",
        "title": told.title.strip(),
        "frames": list(dict.fromkeys(told.frames)),
        "because": told.because.strip(),
        "notice": told.notice.strip(),
        "known_at": position,
        "written_by": told.written_by,
        "at": show_moment(now_ms),
    }
    paper |= {name: said for name, said in (("asked", told.asked), ("claim", told.claim)) if said}
    return told_once(paper, registers.containments.values(), now_ms, but=("at", "known_at"))


def add_act(reads: Reads, told: ActTold, now_ms: int) -> Written[str]:
    """Append what was done about one frame and answer its number; raises `ContainmentRefused`."""
    found = containment_file(reads.registers(), told.containment)
    problems = _wrong_act(told, found.paper, now_ms)
    if problems:
        raise ContainmentRefused(*problems)
    paper: dict[str, Any] = {
        "kind": "containment step",
        "id": f"{told.containment}/{reads.last_position() + 1}",
        "containment": told.containment,
        "frame": told.frame,
        "act": told.act,
        "at": show_moment(told.at_ms),
        "words": told.words.strip(),
        "written_by": told.written_by,
    }
    paper |= {"to": told.to.strip()} if told.to.strip() else {}
    return told_once(paper, next(each.steps for each in found.frames if each.frame == told.frame), now_ms)


def _wrong(told: ContainmentTold, registers: Registers) -> list[str]:
    problems = [
        f"frames: {frame!r} is no serial the record knows; take it out, or write it as on its job packet"
        for frame in told.frames
        if frame not in registers.packets
    ]
    if not told.frames:
        problems.append("frames: none; tick the frames it is about")
    if told.claim and told.claim not in registers.claims:
        problems.append(f"claim: {told.claim!r} is no claim the record knows; leave it empty where there is none")
    said = {"title": told.title, "because": told.because, "notice": told.notice}
    return problems + [
        f"{name}: {words!r} is too short; write it so that a stranger understands"
        for name, words in said.items()
        if len(words.strip()) < _LEAST_WORDS
    ]


def _wrong_act(told: ActTold, paper: Containment, now_ms: int) -> list[str]:
    problems = []
    if told.frame not in paper.frames:
        problems.append(f"frame: {told.frame!r} is not in {paper.id}; it is about {', '.join(paper.frames)}")
    if told.act not in ACTS:
        problems.append(f"act: {told.act!r}; one of {', '.join(ACTS)}")
    if told.at_ms > now_ms:
        problems.append(f"at: {show_moment(told.at_ms)} has not come yet; write when it happened")
    if told.act == "told" and not told.to.strip():
        problems.append("to: empty; write who was told")
    if len(told.words.strip()) < _LEAST_WORDS:
        problems.append(f"words: {told.words!r} is too short; write it so that a stranger understands")
    return problems
