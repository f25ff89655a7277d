"""What the desk shows: the morning list, and the sheet on which a decision is signed."""

import json
from dataclasses import dataclass

from server.facts.deciding import Concession
from server.facts.finding import digest_of
from server.facts.people import Person
from server.judgement.book import RULES
from server.judgement.matters import Matter
from server.judgement.rule import Rule
from server.work.frame_history import Told
from server.work.frame_photos import ShownPhoto
from server.work.held import Held
from server.work.morning_list import MorningList, OnShipped

MOST_ROWS = 25
"""Of one question on the morning list; a sheet of thousands of rows is read by nobody, and all of them have a page."""
CHOICES: tuple[tuple[str, str], ...] = (
    ("accept", "The requirement was met after all: a slip of the hand, a value put right."),
    ("rework", "Brought back to full conformity by a written procedure, then looked at again by somebody else."),
    ("repair", "Made usable, not fully to the requirement; by the repair procedure, with the roles it asks."),
    ("use as is", "Used as it is under a concession, with its frames, its count and its expiry; two roles sign."),
    ("regrade", "Used for another purpose."),
    ("scrap", "Destroyed, so that it cannot come back."),
    ("hold", "Not decided: kept where it is until more is known."),
    ("end of hold", "The hold is over; the question is open again."),
)


EVIDENCE: tuple[tuple[str, str], ...] = (
    ("rework", "the place before and after, and the look of somebody else"),
    ("repair", "the repair procedure, the excavation, the penetrant result, the look afterwards"),
    ("use as is", "the place, and why it does no harm there"),
    ("scrap", "the destroyed piece with its number"),
)


class AskedInWords:
    """What every page of the desk has: the rules its questions come from, and the digits that choose a decision."""

    __slots__ = ()

    @property
    def digits(self) -> tuple[str, ...]:
        """The choices in the order of the digits that choose them."""
        return tuple(choice for choice, _ in CHOICES)

    def rule(self, question: str) -> Rule | None:
        """Give the rule that asks a question."""
        return rule_of(question)


@dataclass(frozen=True, slots=True)
class DeskPage(AskedInWords):
    """The morning list with the rules that its questions come from."""

    morning: MorningList
    done: str
    most: int = MOST_ROWS


@dataclass(frozen=True, slots=True)
class QuestionPage(AskedInWords):
    """Everything the morning list holds about one question, none left out."""

    question: str
    morning: MorningList
    groups: tuple[Held, ...]
    most: None = None


@dataclass(frozen=True, slots=True)
class ShippedPage(AskedInWords):
    """Everything open on frames that have left the house."""

    found: OnShipped


@dataclass(frozen=True, slots=True)
class DecidePage(AskedInWords):
    """The findings to decide on, the entries they rest on, who may sign, and what went wrong the last time."""

    matters: tuple[Matter, ...]
    told: tuple[Told, ...]
    choices: tuple[tuple[str, str], ...]
    signers: tuple[Person, ...]
    concessions: tuple[Concession, ...]
    problems: tuple[str, ...]
    filled: dict[str, str]
    photos: tuple[ShownPhoto, ...] = ()

    @property
    def evidence(self) -> tuple[tuple[str, str], ...]:
        """What usually has to lie beside a decision."""
        return EVIDENCE

    @property
    def decided(self) -> str:
        """The last decisions that stand on this page, so that one signed meanwhile is not passed over unread."""
        return json.dumps(list(dict.fromkeys(each.decision.id for each in self.matters if each.decision)))

    @property
    def shown_sha256(self) -> str:
        """The digest of what this page shows, which the signature covers."""
        return digest_of(tuple(matter.finding for matter in self.matters))


def rule_of(question: str) -> Rule | None:
    """Give the rule that asks a question; an older book's question may have none any more."""
    return next((rule for rule in RULES if rule.id == question), None)
