"""A rule: one question put to one kind of occasion, with the limit it reads, its severity and what it cannot tell."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any, Literal

from server.facts.judged import Severity, Verdict, Word

Level = Literal[
    "pass",
    "tack",
    "joint",
    "frame",
    "signed",
    "bead",
    "change",
    "cylinder",
    "line check",
    "due",
    "check",
    "calibration",
    "instrument",
    "coupon",
    "welder",
    "sleeve",
    "material",
    "tablet",
    "nonconformity",
    "concession",
]
LimitFrom = Literal["procedure", "acceptance", "certificate", "design", "register", "record"]
Answer = Verdict | Sequence[Verdict]
# Verdicts are made by the million; all fields at once, past the names' own checking, they cost a third.
_new = tuple.__new__
_NOT_ASKED, _WITHIN = Word.NOT_ASKED, Word.WITHIN


@dataclass(frozen=True, slots=True, eq=False)
class Rule:
    """One rule of the book; `judge` is the function that answers for one occasion."""

    id: str
    asks: str
    level: Level
    severity: Severity
    limit: str
    limit_from: LimitFrom
    causes: tuple[str, ...]
    why: str
    do: str
    cannot_tell: str
    caution: str
    judge: Callable[["Rule", Any], Answer]
    unasked: Verdict = field(init=False)
    """The one answer this rule gives wherever it asks nothing; it names no subject."""

    def __post_init__(self) -> None:
        object.__setattr__(self, "unasked", Verdict(self.id, "", _NOT_ASKED, self.severity, ""))

    def not_asked(self, subject: str = "") -> Verdict:
        """Answer that nothing was asked here: of what the occasion is about, or of something named beside it."""
        return self.unasked._replace(subject=subject) if subject else self.unasked

    def within(self, subject: str, *rests_on: str, value: float | str | None = None) -> Verdict:
        """Answer that all is as it should be."""
        told = (self.id, subject, _WITHIN, self.severity, "", value, "", None, None, (), None, True, "", "", rests_on)
        return _new(Verdict, told)

    def outside(self, subject: str, message: str, *rests_on: str, **more: Any) -> Verdict:
        """Answer that it is not as it should be; `more` are further fields of the verdict."""
        return self._told(Word.OUTSIDE, subject, message, rests_on, more)

    def unknown(self, subject: str, message: str, *rests_on: str, **more: Any) -> Verdict:
        """Answer that it was asked for and is not known."""
        return self._told(Word.UNKNOWN, subject, message, rests_on, more)

    def _told(self, word: Word, subject: str, message: str, rests_on: tuple[str, ...], more: dict[str, Any]) -> Verdict:
        severity = more.pop("severity", self.severity)
        return Verdict(self.id, subject, word, severity, message, caution=self.caution, rests_on=rests_on, **more)


def rule(
    *,
    id: str,
    asks: str,
    level: Level,
    severity: Severity,
    limit: str = "",
    limit_from: LimitFrom = "record",
    causes: tuple[str, ...] = (),
    why: str,
    do: str,
    cannot_tell: str,
    caution: str = "",
) -> Callable[[Callable[[Rule, Any], Answer]], Rule]:
    """Make a rule of the function below; everything a reader of the book is told stands here."""

    def made(judge: Callable[[Rule, Any], Answer]) -> Rule:
        return Rule(id, asks, level, severity, limit, limit_from, causes, why, do, cannot_tell, caution, judge)

    return made
