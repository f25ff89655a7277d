"""The story as it is collected: what happened on which device, what was signed, and what has to be found in it."""

from dataclasses import dataclass, field
from typing import Any

from demo_data.generator.dice import Dice


@dataclass(slots=True)
class Happening:
    """One entry before it has a device's clock: moments are true shop time [ms]; `moments` are fields of it."""

    at: int
    device: str
    who: str
    fields: dict[str, Any]
    tapped: int
    late_reason: str | None = None
    moments: dict[str, int] = field(default_factory=dict)
    id: str = ""
    shown: int = 0
    """What the device's clock said when it happened [ms]; known once it has its id."""
    sent: int | None = None
    """When it was sent, where that is settled."""


@dataclass(frozen=True, slots=True)
class KeyOf:
    """The key of a finding about a thing at the moment of an entry, known once the entry has its device's clock."""

    thing: str
    happening: Happening
    question: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """A sheet that came from outside: the file it lies in, and what stands on it; a line has its SHA-256 instead."""

    file: str
    words: str


@dataclass(slots=True)
class Paper:
    """A register line with the moment the record learned it."""

    at: int
    line: dict[str, Any]


@dataclass
class Story:
    """Everything collected."""

    seed: int
    happenings: list[Happening] = field(default_factory=list)
    papers: list[Paper] = field(default_factory=list)
    truth: list[dict[str, str]] = field(default_factory=list)
    decoys: list[dict[str, str]] = field(default_factory=list)

    def tell(
        self, moment: int, device: str, who: str, kind: str, tapped: int | None = None, /, **fields: Any
    ) -> Happening:
        """Write down an entry; a field that is none is left out."""
        told = {"kind": kind, **{name: value for name, value in fields.items() if value is not None}}
        happening = Happening(moment, device, who, told, moment + 20_000 if tapped is None else tapped)
        self.happenings.append(happening)
        return happening

    def sign(self, moment: int, kind: str, named: str, /, **fields: Any) -> None:
        """Write down a paper."""
        line = {"kind": kind, "id": named, **{name: value for name, value in fields.items() if value is not None}}
        self.papers.append(Paper(moment, line))

    def find(
        self, incident: str, subject: str, question: str, severity: str, verdict: str = "outside", book: str = "then"
    ) -> None:
        """Write down what has to be found."""
        row = {"incident": incident, "subject": subject, "question": question, "verdict": verdict}
        self.truth.append({**row, "severity": severity, "book": book})

    def never(self, incident: str, subjects: list[str], question: str, why: str, book: str = "then") -> None:
        """Write down what must not be found."""
        for subject in subjects:
            row = {"incident": incident, "subject": subject, "question": question}
            self.decoys.append({**row, "book": book, "why": why})

    def dice(self, *names: object) -> Dice:
        """Give the draws for one named thing."""
        return Dice(self.seed, *names)
