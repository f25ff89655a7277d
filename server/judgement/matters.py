"""Where each finding stands: open, held, decided, or decided on facts that have changed since."""

from collections.abc import Iterable
from typing import Literal, NamedTuple

from server.facts.deciding import Decision
from server.facts.finding import Finding
from server.facts.judged import Severity, Word

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


def _matter(finding: Finding, decision: Decision | None) -> Matter:
    if decision is None or decision.choice == "end of hold":
        return Matter(finding, decision, "open")
    if decision.choice == "hold":
        return Matter(finding, decision, "held")
    then = decision.seen.get(finding.key)
    if then is not None and then != finding.digest:
        return Matter(finding, decision, "look again")
    return Matter(finding, decision, "decided")
