"""Where each finding stands: open, held, decided, or decided on facts that have changed since."""

from collections.abc import Iterable
from typing import Literal, NamedTuple

from server.facts.deciding import Decision
from server.facts.finding import Finding
from server.facts.frame_papers import last_decided
from server.facts.judged import Severity, Word
from server.facts.registers import Registers

State = Literal["open", "held", "decided", "look again"]


class Matter(NamedTuple):
    """A finding with the last decision about it and what that makes of it."""

    finding: Finding
    decision: Decision | None
    state: State

    @property
    def keeps_the_frame(self) -> bool:
        """Tell whether a frame may not ship while this stands as it does; marginal never holds anything up."""
        verdict = self.finding.verdict
        gates = verdict.severity is not Severity.NOTE and verdict.word is not Word.MARGINAL
        return gates and self.state != "decided"


def matters(findings: Iterable[Finding], decisions: Iterable[Decision]) -> list[Matter]:
    """Put each finding beside the last decision on it; a decision signed over other facts says look again."""
    last: dict[str, Decision] = {}
    for decision in decisions:
        for key in decision.findings:
            last[key] = decision
    return [_matter(finding, last.get(finding.key)) for finding in findings]


def matters_among(findings: Iterable[Finding], registers: Registers) -> list[Matter]:
    """Put each finding beside the last decision on it; the decisions are gone through once, not each time."""
    last = last_decided(registers)
    return [_matter(finding, last.get(finding.key)) for finding in findings]


def state_of(digest: str, decision: Decision | None, key: str) -> State:
    """Tell where a finding stands after the last decision on it."""
    if decision is None or decision.choice == "end of hold":
        return "open"
    if decision.choice == "hold":
        return "held"
    then = decision.seen.get(key)
    return "look again" if then is not None and then != digest else "decided"


def _matter(finding: Finding, decision: Decision | None) -> Matter:
    # A digest takes long, and is asked for only where a signer saw one.
    digest = finding.digest if decision is not None and finding.key in decision.seen else ""
    return Matter(finding, decision, state_of(digest, decision, finding.key))
