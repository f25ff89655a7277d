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

_ASKS = {rule.id: rule.asks for rule in RULES}


class Wording(NamedTuple):
    """How the house puts an entry, a moment [ms, UTC] and a sentence of the rule book into the words of its pages."""

    entry: Callable[[AnyEntry], str]
    moment: Callable[[int | None], str]
    sentence: Callable[[str], str]


def told_joint(story: JointStory, wording: Wording) -> dict[str, Any]:
    """Tell one joint with all its attempts."""
    joint = story.joint
    return {
        "joint": joint.id,
        "title": joint.title,
        "procedure": joint.procedure,
        "seam_mm": joint.seam_mm,
        "in_short": _in_words(story),
        "attempts": [_attempt(each, wording) for each in story.attempts],
    }


def _in_words(story: JointStory) -> dict[str, int]:
    """Count over all attempts: passes, questions asked and answered within, findings and those still open."""
    asked = [each for attempt in story.attempts for each in attempt.verdicts if each.word is not Word.NOT_ASKED]
    found = [each for attempt in story.attempts for each in attempt.matters]
    return {
        "attempts": len(story.attempts),
        "passes": sum(told.entry.kind == "pass" for attempt in story.attempts for told in attempt.told),
        "asked": len(asked),
        "within": sum(each.word is Word.WITHIN for each in asked),
        "findings": len(found),
        "open": sum(each.keeps_the_frame for each in found),
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
        "what": wording.entry(entry),
        "who": entry.who,
        "values": [_value(name, each) for name, each in getattr(entry, "values", {}).items()],
        "card": entry.card,
        "late_reason": entry.late_reason,
        "note": entry.note,
        "photo": getattr(entry, "photo", None) or getattr(entry, "sha256", None),
        "mended_by": [{"id": each.id, "reason": each.reason, "withdrawn": each.withdraw} for each in told.mended_by],
    }


def told_matter(matter: Matter, wording: Wording) -> dict[str, Any]:
    """Tell a finding, where it stands, and which decision stands about it."""
    return _verdict(matter.finding.verdict) | {
        "shown": wording.sentence(matter.finding.verdict.message),
        "state": matter.state,
        "decision": matter.decision.id if matter.decision else None,
        "known_at": matter.finding.known_at,
    }


def _attempt(story: AttemptStory, wording: Wording) -> dict[str, Any]:
    return {
        "number": story.number,
        "entries": [told_entry(each, wording) for each in story.told],
        "findings": [told_matter(each, wording) for each in story.matters],
        "asked": {word.value: _questions(story.verdicts, word) for word in Word},
        "verdicts": [_in_short(each) for each in story.verdicts if each.word is not Word.NOT_ASKED],
    }


def _questions(verdicts: tuple[Verdict, ...], word: Word) -> list[str]:
    return sorted({each.question for each in verdicts if each.word is word})


def _value(name: str, measured: Measured) -> dict[str, Any]:
    words = QUANTITIES[name].words
    by = f", {measured.by}" if measured.by else ""
    shown = f"{words} {measured.value:g} {measured.unit} ({measured.how}{by})"
    return {
        "name": name,
        "value": measured.value,
        "unit": measured.unit,
        "how": measured.how,
        "by": measured.by,
        "shown": shown,
    }


def _verdict(verdict: Verdict) -> dict[str, Any]:
    told = verdict._asdict() | {"word": verdict.word.value, "severity": verdict.severity.value}
    told["rests_on"], told["allowed"] = list(verdict.rests_on), list(verdict.allowed)
    return told | {"asks": _ASKS.get(verdict.question, verdict.question), "limit": _limit(verdict)}


def _in_short(verdict: Verdict) -> dict[str, Any]:
    return {name: value for name, value in _verdict(verdict).items() if value not in (None, "", [])}


def _limit(verdict: Verdict) -> str:
    low, high = verdict.low, verdict.high
    if verdict.allowed:
        return " or ".join(verdict.allowed)
    ends = [f"at least {low:g}" if low is not None else "", f"at most {high:g}" if high is not None else ""]
    said = " and ".join(end for end in ends if end)
    return f"{said} {verdict.unit}".strip() if said else ""
