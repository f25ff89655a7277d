"""What the shop decided the last times it met a cause, and whether the same was found again."""

from collections.abc import Iterable, Set
from typing import NamedTuple

from server.facts.deciding import Decision, Nonconformity
from server.facts.registers import Registers
from server.judgement.book import RULES
from server.record.reads import Reads

_SHOWN = 5


class DecidedBefore(NamedTuple):
    """One cause: the nonconformities and the newest decisions about its questions, and what stands open of them."""

    cause: str
    nonconformities: tuple[Nonconformity, ...]
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


def _standing(reads: Reads, questions: Set[str], known_at: int | None) -> list[str]:
    if known_at is not None:
        return [each.key for each in reads.findings(known_at=known_at)]
    groups = reads.findings_short().items()
    return sorted(key for (question, _), found in groups if question in questions for key in found)


def _before(registers: Registers, cause: str, questions: Set[str], standing: Iterable[str]) -> DecidedBefore:

    def asks(keys: Iterable[str]) -> bool:
        return any(key.partition("|")[2] in questions for key in keys)

    papers = tuple(each for each in registers.nonconformities.values() if asks(each.findings))
    decisions = [each for each in registers.decisions.values() if asks(each.findings)]
    told = {key for paper in papers for key in paper.findings} | {key for each in decisions for key in each.findings}
    again = tuple(sorted(key for key in standing if asks([key]) and key not in told))
    newest = sorted(decisions, key=lambda each: -max(signed.at for signed in each.signatures))
    return DecidedBefore(cause, papers, tuple(newest[:_SHOWN]), len(decisions), again)
