"""The air check of each analyser in each shift it was used."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import DueOccasion
from server.judgement.dues import made_when_due
from server.judgement.rule import Rule, rule


@rule(
    id="air-check-due",
    asks="Was the analyser checked in air that shift?",
    level="due",
    severity=Severity.DECIDE,
    limit="air_check_every",
    limit_from="acceptance",
    causes=("C5",),
    why="Air has one figure everywhere: the cheapest check there is.",
    do="Check it now; decide about the shift's readings.",
    cannot_tell="An analyser right in air may be wrong near zero.",
)
def air_check_due(me: Rule, on: DueOccasion) -> Verdict | tuple[()]:
    return made_when_due(me, on, "no air check was logged that day")
