"""Where a finding stands follows from the last decision on it and from the facts it was signed over."""

import pytest

from server.facts.deciding import Decision
from server.facts.finding import Finding
from server.facts.judged import Severity, Verdict, Word
from server.judgement.matters import matters

KEY = "A-1/J01#1|purge-o2"


def finding(value: float = 28.0, severity: Severity = Severity.DECIDE, word: Word = Word.OUTSIDE) -> Finding:
    verdict = Verdict("purge-o2", "A-1/J01#1", word, severity, "above", value, "ppm", high=20.0)
    return Finding(verdict, "A-1", 7, "today")


def decision(choice: str, number: int = 1, seen: dict[str, str] | None = None) -> Decision:
    signed = {"person": "P1", "role": "quality lead", "at": "2026-01-01T00:00:00Z", "meaning": "decided"}
    told = {"id": f"D{number}", "choice": choice, "findings": (KEY,), "reason": "seen and measured"}
    return Decision.model_validate(told | {"seen": seen or {}, "signatures": [signed | {"shown_sha256": "00"}]})


@pytest.mark.parametrize(
    ("choices", "state", "keeps"),
    [([], "open", True), (["accept"], "decided", False), (["hold"], "held", True),
     (["hold", "end of hold"], "open", True), (["hold", "rework"], "decided", False)],
)
def test_the_last_decision_counts(choices: list[str], state: str, keeps: bool):
    """A decision is followed by the next, never edited, and only the last says where the finding stands."""
    [matter] = matters([finding()], [decision(choice, n) for n, choice in enumerate(choices)])

    assert matter.state == state
    assert matter.keeps_the_frame is keeps


def test_a_decision_on_other_facts_says_look_again():
    """When the value behind a finding changes after it was signed, the decision no longer closes it."""
    signed_over = decision("accept", seen={KEY: finding(28.0).digest})

    assert matters([finding(28.0)], [signed_over])[0].state == "decided"
    assert matters([finding(34.0)], [signed_over])[0].state == "look again"


def test_a_note_never_keeps_a_frame():
    """A note is worth reading and waits for nobody."""
    assert not matters([finding(severity=Severity.NOTE)], [])[0].keeps_the_frame


@pytest.mark.parametrize("severity", [Severity.STOP, Severity.DECIDE])
def test_marginal_never_keeps_a_frame(severity: Severity):
    """Inside the limit but closer than the instrument can tell holds nothing up; unknown is never a pass."""
    assert not matters([finding(severity=severity, word=Word.MARGINAL)], [])[0].keeps_the_frame
    assert matters([finding(severity=severity, word=Word.UNKNOWN)], [])[0].keeps_the_frame
