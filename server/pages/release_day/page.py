"""What the page of the day of release shows."""

from dataclasses import dataclass

from server.facts.legal_hold import LegalHold
from server.judgement.rule import Rule
from server.pages.desk.page import rule_of
from server.work.release_day import ReleaseDay


@dataclass(frozen=True, slots=True)
class ReleaseDayPage:
    """One release."""

    day: ReleaseDay
    hold: LegalHold | None = None

    def rule(self, question: str) -> Rule | None:
        """Give the rule that asks a question."""
        return rule_of(question)
