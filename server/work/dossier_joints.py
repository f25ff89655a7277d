"""Tells the joints of a frame for its dossier: attempt by attempt, each entry, each verdict, each finding."""

from collections.abc import Callable
from typing import Any, NamedTuple

from server.facts.judged import Verdict, Word
from server.facts.log import AnyEntry
from server.facts.measured import Measured
from server.facts.moment import show_moment
from server.facts.quantities import QUANTITIES
from server.judgement.book import RULES
from server.judgement.matters import Matter
from server.work.frame_history import AttemptStory, JointStory, Told
from server.work.removed_attempts import LastMade

_ASKS = {rule.id: rule.asks for rule in RULES}


def _plainly(number: str, unit: str) -> str:
    return f"{number} {unit}".strip()


class Wording(NamedTuple):
    """How the house puts an entry, a moment [ms, UTC], a sentence of the rule book and a number into words."""

    entry: Callable[[AnyEntry], str]
    moment: Callable[[int | None], str]
    sentence: Callable[[str], str]
    in_unit: Callable[[str, str], str] = _plainly


def told_joint(story: JointStory, wording: Wording) -> dict[str, Any]:
    """Tell one joint with all its attempts."""
    joint = story.joint
    made = LastMade(told.recorded for attempt in story.attempts for told in attempt.told)
    return {
        "joint": joint.id,
        "title": joint.title,
        "procedure": joint.procedure,
        "seam_mm": joint.seam_mm,
        "in_short": _in_words(story, made),
        "attempts": [_attempt(each, wording, made) for each in story.attempts],
    }


def _in_words(story: JointStory, made: LastMade) -> dict[str, int]:
    """Count over all attempts: passes, questions asked and answered within, findings, those open in it and before."""
    asked = [each for attempt in story.attempts for each in attempt.verdicts if each.word is not Word.NOT_ASKED]
    found = [each for attempt in story.attempts for each in attempt.matters]
    waiting = [each for each in found if each.keeps_the_frame]
    removed = sum(made.removed(each) for each in waiting)
    return {
        "attempts": len(story.attempts),
        "passes": sum(told.entry.kind == "pass" for attempt in story.attempts for told in attempt.told),
        "asked": len(asked),
        "within": sum(each.word is Word.WITHIN for each in asked),
        "findings": len(found),
        "open": len(waiting) - removed,
        "open_on_removed": removed,
    }


def told_entry(told: Told, wording: Wording) -> dict[str, Any]:
    """Tell one entry: when it truly happened, what it says, its values with how each is known, who, what mends it."""
    entry = told.entry
    return {
        "id": entry.id,
        "position": told.recorded.position,
        "at": show_moment(told.stamp.at_ms),
        "shown": wording.moment(told.stamp.at_ms),
        "received": show_moment(told.recorded.received_ms),
        "kind": entry.kind,
        "joint": getattr(entry, "joint", None),
        "what": wording.entry(entry),
        "who": entry.who,
        "values": [_value(name, each, wording) for name, each in getattr(entry, "values", {}).items()],
        "card": entry.card,
        "late_reason": entry.late_reason,
        "note": entry.note,
        "photo": getattr(entry, "photo", None) or getattr(entry, "sha256", None),
        "mended_by": [{"id": each.id, "reason": each.reason, "withdrawn": each.withdraw} for each in told.mended_by],
    }


def told_matter(matter: Matter, wording: Wording) -> dict[str, Any]:
    """Tell a finding, where it stands, and which decision stands about it."""
    verdict = matter.finding.verdict
    return _verdict(verdict, wording) | {
        "place": wording.sentence(verdict.subject),
        "shown": wording.sentence(verdict.message),
        "state": matter.state,
        "holds": matter.keeps_the_frame,
        "decision": matter.decision.id if matter.decision else None,
        "known_at": matter.finding.known_at,
    }


def _attempt(story: AttemptStory, wording: Wording, made: LastMade) -> dict[str, Any]:
    return {
        "number": story.number,
        "entries": [told_entry(each, wording) for each in story.told],
        "findings": [told_matter(each, wording) | {"removed": made.removed(each)} for each in story.matters],
        "asked": {word.value: _questions(story.verdicts, word) for word in Word},
        "verdicts": [_in_short(each, wording) for each in story.verdicts if each.word is not Word.NOT_ASKED],
    }


def _questions(verdicts: tuple[Verdict, ...], word: Word) -> list[str]:
    return sorted({each.question for each in verdicts if each.word is word})


def _value(name: str, measured: Measured, wording: Wording) -> dict[str, Any]:
    words = QUANTITIES[name].words
    by = f", {measured.by}" if measured.by else ""
    shown = f"{words} {wording.in_unit(f'{measured.value:g}', measured.unit)} ({measured.how}{by})"
    return {
        "name": name,
        "value": measured.value,
        "unit": measured.unit,
        "how": measured.how,
        "by": measured.by,
        "shown": shown,
    }


def _verdict(verdict: Verdict, wording: Wording) -> dict[str, Any]:
    told = verdict._asdict() | {"word": verdict.word.value, "severity": verdict.severity.value}
    told["rests_on"], told["allowed"] = list(verdict.rests_on), list(verdict.allowed)
    return told | {"asks": asked_as(verdict.question), "limit": _limit(verdict, wording)}


def asked_as(question: str) -> str:
    """Give what a question of the book asks; its name where the book has it no longer."""
    return _ASKS.get(question, question)


def _in_short(verdict: Verdict, wording: Wording) -> dict[str, Any]:
    return {name: value for name, value in _verdict(verdict, wording).items() if value not in (None, "", [])}


def _limit(verdict: Verdict, wording: Wording) -> str:
    low, high = verdict.low, verdict.high
    if verdict.allowed:
        return " or ".join(verdict.allowed)
    if low is not None and high is not None:
        return f"{low:g} to {wording.in_unit(f'{high:g}', verdict.unit)}"
    ends = (("at least", low), ("at most", high))
    return "".join(f"{word} {wording.in_unit(f'{end:g}', verdict.unit)}" for word, end in ends if end is not None)
