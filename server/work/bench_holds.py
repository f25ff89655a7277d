"""What holds a seam of a frame back from being covered, in the words a tablet shows beside the release."""

from collections import defaultdict
from collections.abc import Iterable

from server.facts.deciding import Decision
from server.facts.finding import Finding
from server.facts.judged import Severity, Word
from server.facts.subject import read_joint_subject
from server.judgement.matters import Matter, State, matters

_WAITS: dict[State, str] = {
    "open": "the quality lead decides first",
    "held": "the quality lead holds it",
    "look again": "facts have changed since it was decided; the quality lead looks again first",
    "decided": "decided",
}


def holds_told(findings: Iterable[Finding], decisions: Iterable[Decision]) -> dict[str, list[dict[str, str]]]:
    """Give, by frame, what stops a joint or lies outside on it and nobody has decided yet, each with its joint."""
    told: dict[str, list[dict[str, str]]] = defaultdict(list)
    for matter in matters(findings, decisions):
        verdict = matter.finding.verdict
        subject = read_joint_subject(verdict.subject)
        if subject is not None and _holds(matter):
            words = f"{verdict.message.rstrip('.')}: {_WAITS[matter.state]}"
            told[subject.frame].append({"joint": subject.joint, "words": words})
    return told


def _holds(matter: Matter) -> bool:
    """Whether a seam is not offered for release: a stop shuts the gate, and what is outside is looked at in time."""
    verdict = matter.finding.verdict
    return matter.keeps_the_frame and (verdict.severity is Severity.STOP or verdict.word is Word.OUTSIDE)
