"""The weekly leak test of each gas line in use."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import DueOccasion
from server.judgement.dues import made_when_due
from server.judgement.rule import Rule, rule


@rule(
    id="leak-test-due",
    asks="Was the gas line tested for leaks that week?",
    level="due",
    severity=Severity.NOTE,
    limit="leak_test_every",
    limit_from="acceptance",
    causes=("C11",),
    why="Hoses age from the day they are fitted.",
    do="Test the line.",
    cannot_tell="It may have been made and not logged.",
)
def leak_test_due(me: Rule, on: DueOccasion) -> Verdict | tuple[()]:
    return made_when_due(me, on, "no leak test was logged in that week")
