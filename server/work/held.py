"""Groups findings by what they ask, so that twenty of one cause are one paragraph and one decision."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from server.facts.registers import Registers
from server.judgement.matters import Matter
from server.work.who_has_it import last_shipment, who_has_it


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
class Gone:
    """One frame that has left the house, with who has it and since when [ms, UTC], and what is open on it."""

    frame: str
    customer: str
    shipped_ms: int
    matters: tuple[Matter, ...]


@dataclass(frozen=True, slots=True)
class OpenOnGone:
    """One question that is open on frames that have left the house."""

    question: str
    gone: tuple[Gone, ...]

    @property
    def count(self) -> int:
        """How many findings there are."""
        return sum(len(each.matters) for each in self.gone)


def grouped(found: Iterable[Matter]) -> tuple[Held, ...]:
    """Group matters by question, those that hold up most frames first."""
    held = [Held(question, tuple(each)) for question, each in _by_question(found).items()]
    return tuple(sorted(held, key=lambda each: (-len(each.frames), each.question)))


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
