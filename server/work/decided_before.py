"""What the shop decided the last times it met a cause, and whether the same was found again."""

from collections.abc import Iterable, Mapping, Set
from typing import NamedTuple

from server.facts.deciding import Decision, Nonconformity
from server.facts.frame_papers import decisions_by_key
from server.facts.looked_up import gathered
from server.facts.registers import Registers
from server.judgement.book import RULES
from server.record.reads import Reads

_SHOWN = 5


class DecidedBefore(NamedTuple):
    """One cause: the newest nonconformities and decisions about its questions, how many, and what stands open."""

    cause: str
    nonconformities: tuple[Nonconformity, ...]
    papers: int
    decisions: tuple[Decision, ...]
    decided: int
    still_found: tuple[str, ...]

    @property
    def known(self) -> bool:
        """Whether the shop ever decided anything about it."""
        return bool(self.nonconformities or self.decided)


def decided_before(reads: Reads, causes: Iterable[str], known_at: int | None = None) -> list[DecidedBefore]:
    """Give it for some causes, in the order asked."""
    registers = reads.registers(known_at)
    asked = {cause: {rule.id for rule in RULES if cause in rule.causes} for cause in causes}
    standing = _standing(reads, set().union(*asked.values()), known_at)
    return [_before(registers, cause, questions, standing) for cause, questions in asked.items()]


def _standing(reads: Reads, questions: Set[str], known_at: int | None) -> dict[str, list[str]]:
    """What stands of these questions, by question."""
    found: dict[str, list[str]] = {question: [] for question in sorted(questions)}
    if known_at is None:
        for (question, _), keys in reads.findings_short().items():
            if question in found:
                found[question] += keys
    else:
        for each in reads.findings(known_at=known_at):
            if (question := _question(each.key)) in found:
                found[question].append(each.key)
    return found


def _before(
    registers: Registers, cause: str, questions: Set[str], standing: Mapping[str, Iterable[str]]
) -> DecidedBefore:
    papers = {each.id: each for question in questions for each in _papers(registers).get(question, ())}
    decisions = {each.id: each for question in questions for each in _decisions(registers).get(question, ())}
    by_key, under = decisions_by_key(registers), _papers_by_key(registers)
    keys = (key for question in questions for key in standing[question])
    again = sorted(key for key in keys if key not in by_key and key not in under)
    told = sorted(papers.values(), key=lambda each: -registers.positions.get(f"nonconformity:{each.id}", 0))
    in_order = sorted(decisions.values(), key=lambda each: registers.positions.get(f"decision:{each.id}", 0))
    newest = sorted(in_order, key=lambda each: -max(signed.at for signed in each.signatures))
    shown = tuple(told[:_SHOWN]), len(papers), tuple(newest[:_SHOWN]), len(decisions)
    return DecidedBefore(cause, *shown, tuple(again))


def _papers(registers: Registers) -> Mapping[str, tuple[Nonconformity, ...]]:
    papers = registers.nonconformities
    return gathered(registers, "nonconformities by question", papers, lambda each: map(_question, each.findings))


def _decisions(registers: Registers) -> Mapping[str, tuple[Decision, ...]]:
    return gathered(
        registers, "decisions by question", registers.decisions, lambda each: map(_question, each.findings)
    )


def _papers_by_key(registers: Registers) -> Mapping[str, tuple[Nonconformity, ...]]:
    return gathered(registers, "nonconformities by key", registers.nonconformities, lambda each: each.findings)


def _question(key: str) -> str:
    return key.partition("|")[2]
