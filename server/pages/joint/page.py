"""What a joint's page shows."""

from dataclasses import dataclass
from typing import Any

from server.charts.strip import Strip
from server.facts.design import Cover, Joint
from server.facts.judged import Verdict, Word
from server.facts.legal_hold import LegalHold
from server.judgement.rule import Rule
from server.pages.desk.page import rule_of
from server.pages.joint.recordings import Recording
from server.plan.picture_parts import Picture
from server.work.frame_history import AttemptStory, FrameStory, JointStory
from server.work.frame_photos import ShownPhoto
from server.work.sister_joints import SISTERS

_FIRST = (Word.OUTSIDE, Word.UNKNOWN, Word.MARGINAL, Word.WITHIN)


@dataclass(frozen=True, slots=True)
class JointPage:
    """One joint with its neighbours, what hides it and what it hides, and its values beside the sister frames'."""

    story: FrameStory
    joint: JointStory
    picture: Picture | None
    state_of: dict[str, Any]
    neighbours: tuple[Joint, ...]
    hides: tuple[Cover, ...]
    hidden_by: tuple[Cover, ...]
    strips: tuple[Strip, ...]
    recordings: tuple[Recording, ...]
    photos: tuple[ShownPhoto, ...]
    most_sisters: int = SISTERS
    hold: LegalHold | None = None

    def rule(self, question: str) -> Rule | None:
        """Give the rule that asks a question."""
        return rule_of(question)

    def asked(self, attempt: AttemptStory) -> list[Verdict]:
        """Give the verdicts that were asked for, what needs reading first."""
        told = [each for each in attempt.verdicts if each.word in _FIRST]
        return sorted(told, key=lambda each: (_FIRST.index(each.word), each.question, each.subject))

    def not_asked(self, attempt: AttemptStory) -> list[str]:
        """Give the questions that nobody asked of this joint."""
        return sorted({each.question for each in attempt.verdicts if each.word is Word.NOT_ASKED})
