"""Groups findings by what they ask, so that twenty of one cause are one paragraph and one decision."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from server.facts.finding import Finding
from server.facts.registers import Registers
from server.judgement.matters import Matter, State
from server.record.findings_short import ShortFinding
from server.work.who_has_it import last_shipment, who_has_it


@dataclass(frozen=True, slots=True)
class Held:
    """One question with everything it holds up: the findings by their keys, and those that are shown in full."""

    question: str
    matters: tuple[Matter, ...]
    keys: tuple[str, ...]
    frames: tuple[str, ...]

    @property
    def count(self) -> int:
        """How many findings there are."""
        return len(self.keys)


class Sorted(NamedTuple):
    """One question with what stands on it in short, by key, and those of them that are to be read in full."""

    question: str
    every: tuple[ShortFinding, ...]
    shown: tuple[ShortFinding, ...]

    @property
    def frames(self) -> tuple[str, ...]:
        """The frames that wait on it."""
        return tuple(sorted({each.frame for each in self.every if each.frame}))

    def in_full(self, read: Mapping[str, Matter]) -> Held:
        """Give it with what was read of it in full."""
        keys = tuple(each.key for each in self.every)
        return Held(self.question, tuple(read[each.key] for each in self.shown), keys, self.frames)


@dataclass(frozen=True, slots=True)
class Gone:
    """One frame that has left the house, with who has it and since when [ms, UTC], and what is open on it."""

    frame: str
    customer: str
    shipped_ms: int
    matters: tuple[Matter, ...]

    @property
    def told(self) -> tuple[tuple[Finding, State], ...]:
        """What is open on it, each with where it stands."""
        return tuple((each.finding, each.state) for each in self.matters)


@dataclass(frozen=True, slots=True)
class OpenOnGone:
    """One question that is open on frames that have left the house."""

    question: str
    gone: tuple[Gone, ...]

    @property
    def count(self) -> int:
        """How many findings there are."""
        return sum(len(each.matters) for each in self.gone)


def grouped(found: Iterable[ShortFinding], most: int | None = None) -> tuple[Sorted, ...]:
    """Group findings by question, those that hold up most frames first; so many of each are to be shown, or all."""
    by_question: dict[str, list[ShortFinding]] = {}
    for each in sorted(found, key=_key):
        by_question.setdefault(each.question, []).append(each)
    groups = [Sorted(question, tuple(of_it), tuple(of_it[:most])) for question, of_it in by_question.items()]
    return tuple(sorted(groups, key=lambda each: (-len(each.frames), each.question)))


def in_full(groups: Iterable[Sorted], read: Mapping[str, Matter]) -> tuple[Held, ...]:
    """Give the groups with what was read of them in full."""
    return tuple(each.in_full(read) for each in groups)


def grouped_gone(found: Iterable[Matter], registers: Registers) -> tuple[OpenOnGone, ...]:
    """Group matters on shipped frames by question and then by frame, newest shipment first."""
    groups = [OpenOnGone(question, _gone(each, registers)) for question, each in _by_question(found).items()]
    return tuple(sorted(groups, key=lambda each: (-len(each.gone), each.question)))


def _gone(found: list[Matter], registers: Registers) -> tuple[Gone, ...]:
    of_frame: dict[str, list[Matter]] = {}
    for matter in found:
        of_frame.setdefault(matter.finding.frame or "", []).append(matter)
    gone = [
        Gone(frame, who_has_it(registers, frame), shipment.at, tuple(open_on))
        for frame, open_on in of_frame.items()
        if (shipment := last_shipment(registers, frame))
    ]
    return tuple(sorted(gone, key=lambda each: (-each.shipped_ms, each.frame)))


def _by_question(found: Iterable[Matter]) -> Mapping[str, list[Matter]]:
    by_question: dict[str, list[Matter]] = {}
    for matter in found:
        by_question.setdefault(matter.finding.verdict.question, []).append(matter)
    return by_question


def _key(each: ShortFinding) -> str:
    return each.key
