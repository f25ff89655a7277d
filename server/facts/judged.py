"""A verdict is one of five words on one question about one subject; a finding is a verdict somebody must read."""

from enum import StrEnum
from typing import NamedTuple


class Word(StrEnum):
    """The five words."""

    WITHIN = "within"
    MARGINAL = "marginal"
    OUTSIDE = "outside"
    UNKNOWN = "unknown"
    NOT_ASKED = "not asked"


class Severity(StrEnum):
    """What a finding holds up: the next step on the joint, the shipping of the frame, or nothing."""

    STOP = "stop"
    DECIDE = "decide"
    NOTE = "note"


class Verdict(NamedTuple):
    """The answer to one question about one subject, with the limit it met and the entries it rests on."""

    question: str
    subject: str
    word: Word
    severity: Severity
    message: str
    value: float | str | None = None
    unit: str = ""
    low: float | None = None
    high: float | None = None
    allowed: tuple[str, ...] = ()
    uncertainty: float | None = None
    proved: bool = True
    source: str = ""
    caution: str = ""
    rests_on: tuple[str, ...] = ()

    @property
    def key(self) -> str:
        """The natural key that decisions point at: subject (with attempt) and question."""
        return f"{self.subject}|{self.question}"
