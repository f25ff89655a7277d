"""What holds a seam back from being covered is told to the tablet in words, and no longer once it is decided."""

from typing import Literal

import pytest

from server.facts.deciding import Decision
from server.facts.finding import Finding
from server.facts.judged import Severity, Verdict, Word
from server.work.bench_holds import holds_told

KEY = "A-1/J01#1|purge-o2"


def finding(word: Word = Word.OUTSIDE, severity: Severity = Severity.DECIDE, subject: str = "A-1/J01#1") -> Finding:
    verdict = Verdict("purge-o2", subject, word, severity, "Oxygen 28 ppm.", 28.0, "ppm", high=20.0)
    return Finding(verdict, "A-1", 7, "today")


def decision(choice: Literal["accept", "hold"], seen: dict[str, str] | None = None) -> Decision:
    signed = {"person": "P1", "role": "quality lead", "at": "2026-01-01T00:00:00Z", "meaning": "decided"}
    told = {"id": "D1", "choice": choice, "findings": (KEY,), "reason": "seen and measured", "seen": seen or {}}
    return Decision.model_validate(told | {"signatures": [signed | {"shown_sha256": "00"}]})


def test_an_open_finding_holds_its_joint() -> None:
    """The tablet gets the joint and, in words, what was found and whose turn it is."""
    told = holds_told([finding()], [])
    assert told == {"A-1": [{"joint": "J01", "words": "Oxygen 28 ppm: the quality lead decides first"}]}


def test_a_decided_one_holds_nothing() -> None:
    """Signed over the same facts, the seam may be released; held, or signed over other facts, it may not."""
    assert holds_told([finding()], [decision("accept", {KEY: finding().digest})]) == {}
    held, again = (holds_told([finding()], [each]) for each in (decision("hold"), decision("accept", {KEY: "other"})))
    assert held["A-1"][0]["words"] == "Oxygen 28 ppm: the quality lead holds it"
    assert again["A-1"][0]["words"].endswith("the quality lead looks again first")


@pytest.mark.parametrize(
    ("word", "severity", "holds"),
    [
        (Word.UNKNOWN, Severity.STOP, True),
        (Word.UNKNOWN, Severity.DECIDE, False),
        (Word.MARGINAL, Severity.STOP, False),
        (Word.OUTSIDE, Severity.NOTE, False),
    ],
)
def test_only_a_stop_or_what_lies_outside_holds(word: Word, severity: Severity, holds: bool) -> None:
    """A reading missing that stops nothing, a marginal value and a note leave the seam free to be released."""
    assert bool(holds_told([finding(word, severity)], [])) is holds


def test_what_is_about_no_joint_holds_no_seam() -> None:
    """A finding on a gas line is not put on any joint."""
    assert holds_told([finding(subject="north@2026-01-01")], []) == {}
