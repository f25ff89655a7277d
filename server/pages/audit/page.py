"""What the sample audit's screens show: all draws with what they come to, and one draw with its joints."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.facts.people import Person
from server.work.audit_state import AuditedWeek, Tally

OUTCOMES: tuple[tuple[str, str, str], ...] = (
    ("agrees", "Nothing found", "It was looked at and is as the record says."),
    ("found", "Something found", "A nonconformity is opened at once and holds the joint and its frame."),
    ("not reached", "Could not be looked at", "Covered or out of the house; it counts neither way."),
)


@dataclass(frozen=True, slots=True)
class AuditPage:
    """All draws, the weeks that can be drawn, how many joints a week are drawn, and what it comes to over all."""

    weeks: tuple[AuditedWeek, ...]
    to_draw: tuple[str, ...]
    each_week: int
    tally: Tally
    problems: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class DrawPage:
    """One draw: its joints, whether the record gives the same lot again, and the form for a second look."""

    week: AuditedWeek
    same_again: bool
    signers: tuple[Person, ...]
    filled: Mapping[str, str]
    problems: tuple[str, ...]
    done: str

    @property
    def outcomes(self) -> tuple[tuple[str, str, str], ...]:
        """What a second look may come to."""
        return OUTCOMES

    @property
    def chosen(self) -> str:
        """The joint the form stands at: the one filled in, else the first that waits."""
        return self.filled.get("subject") or next(iter(self.week.waiting), "")
