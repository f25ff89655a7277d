"""Whether a concession or a deviation permit covers a use of it: frames, joints, question, count, expiry, and when."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from server.facts.deciding import Concession, Decision
from server.facts.finding import Finding
from server.facts.subject import JointSubject, read_joint_subject


class Use(NamedTuple):
    """A use that somebody asks for: of which findings, when it is signed, and when the oldest work under them was."""

    findings: Sequence[Finding]
    at_ms: int
    made_ms: int | None


def frames_used(concession: str, decisions: Iterable[Decision]) -> list[str]:
    """Give the frames a concession has been used for, in the order of signing; a frame counts once."""
    used: dict[str, None] = {}
    for decision in sorted(decisions, key=_signed_ms):
        if decision.concession == concession:
            for key in decision.findings:
                if found := read_joint_subject(key.partition("|")[0]):
                    used[found.frame] = None
    return list(used)


def why_not_covered(concession: Concession, use: Use, decisions: Iterable[Decision]) -> list[str]:
    """List, in shop words, why a concession does not cover a use; an empty list says that it does."""
    subjects = [(each, read_joint_subject(each.verdict.subject)) for each in use.findings]
    named = [subject for _, subject in subjects if subject is not None]
    return [
        *_not_of_a_joint(concession, [each for each, subject in subjects if subject is None]),
        *_not_named(concession, named),
        *_other_question(concession, use.findings),
        *_used_up(concession, named, frames_used(concession.id, decisions)),
        *_out_of_time(concession, use),
    ]


def _not_of_a_joint(concession: Concession, findings: Iterable[Finding]) -> list[str]:
    return [
        f"concession: {concession.id} names joints of frames; {each.verdict.subject} is none, decide on it otherwise"
        for each in findings
    ]


def _not_named(concession: Concession, named: Iterable[JointSubject]) -> list[str]:
    problems = []
    for each in dict.fromkeys(named):
        plain = each._replace(quarter=None)
        spelled = {each.joint, f"{each.frame}/{each.joint}", str(each), str(plain)}
        if each.frame not in concession.frames:
            problems.append(f"concession: {concession.id} does not name frame {each.frame}; ask for one that does")
        elif concession.joints and not spelled & set(concession.joints):
            problems.append(f"concession: {concession.id} does not name joint {each.joint}; ask for one that does")
    return list(dict.fromkeys(problems))


def _other_question(concession: Concession, findings: Iterable[Finding]) -> list[str]:
    if concession.question is None:
        return []
    others = {each.verdict.question for each in findings} - {concession.question}
    return [f"concession: {concession.id} is about {concession.question}, not about {each}" for each in sorted(others)]


def _used_up(concession: Concession, named: Iterable[JointSubject], used: list[str]) -> list[str]:
    new = {each.frame for each in named} - set(used)
    if concession.count is None or len(used) + len(new) <= concession.count:
        return []
    return [f"concession: {concession.id} is used up: {len(used)} of {concession.count} used, on {', '.join(used)}"]


def _out_of_time(concession: Concession, use: Use) -> list[str]:
    problems = []
    if concession.expires is not None and use.at_ms > concession.expires:
        problems.append(f"concession: {concession.id} has expired; both roles sign a new one, or make it anew")
    signed_ms = max(each.at for each in concession.signatures)
    if concession.before and (use.made_ms is None or use.made_ms < signed_ms):
        problems.append(f"concession: {concession.id} permits what is made after it was signed; this was made before")
    return problems


def _signed_ms(decision: Decision) -> int:
    return max(each.at for each in decision.signatures)
