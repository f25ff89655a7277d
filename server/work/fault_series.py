"""Every welded joint in the order of its last arc, sound or faulty on one question: what a rare fault is watched by."""

from collections.abc import Iterable
from typing import NamedTuple

from server.facts.finding import Finding
from server.facts.judged import Severity, Word
from server.facts.subject import JointSubject, read_joint_subject
from server.occasions.clocks import Clocks
from server.record.reads import Reads
from server.work.standing_passes import standing_passes

_FAULT = (Word.OUTSIDE, Word.UNKNOWN)
ANY = "any"
"""Asks for a joint with any finding that had to be decided."""
EVERY = "every"
"""Asks for a joint with any finding at all, notes included."""


class JointMark(NamedTuple):
    """One attempt at a joint, when its last arc ended [ms, UTC], and whether it was found faulty."""

    at_ms: int
    frame: str
    joint: str
    attempt: int
    faulty: bool


def fault_series(
    reads: Reads, findings: Iterable[Finding], question: str = ANY, known_at: int | None = None
) -> list[JointMark]:
    """Give every attempt at every joint in true order, faulty where the question (or any) was not met or not shown."""
    clocks = Clocks(reads.clock_pairs(known_at))
    faulty = {joint for each in findings if _counts(each, question) for joint in _joint_of(each)}
    ended: dict[JointSubject, int] = {}
    for it, _ in standing_passes(reads, known_at):
        subject = JointSubject(it.frame, it.joint, it.attempt)
        ended[subject] = max(clocks.stamp(it).at_ms, ended.get(subject, 0))
    return sorted(JointMark(at_ms, *of[:3], of in faulty) for of, at_ms in ended.items())


def questions_of_joints(findings: Iterable[Finding]) -> list[str]:
    """Give the questions on which some joint was found faulty."""
    return sorted({each.verdict.question for each in findings if _counts(each, ANY) and _joint_of(each)})


def _counts(finding: Finding, question: str) -> bool:
    verdict = finding.verdict
    if verdict.word not in _FAULT:
        return False
    if question in (ANY, EVERY):
        return question == EVERY or verdict.severity is not Severity.NOTE
    return verdict.question == question


def _joint_of(finding: Finding) -> list[JointSubject]:
    found = read_joint_subject(finding.verdict.subject)
    return [found._replace(quarter=None)] if found else []
