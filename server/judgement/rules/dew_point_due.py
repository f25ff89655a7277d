"""The weekly dew point reading of each gas line in use."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import DueOccasion
from server.judgement.dues import made_when_due
from server.judgement.rule import Rule, rule


@rule(
    id="dew-point-due",
    asks="Was the dew point of the line read that week?",
    level="due",
    severity=Severity.NOTE,
    limit="dew_point_every",
    limit_from="acceptance",
    causes=("C11", "C26"),
    why="Moisture creeps; a weekly figure shows the creep.",
    do="Read it now.",
    cannot_tell="It may have been read and not logged.",
)
def dew_point_due(me: Rule, on: DueOccasion) -> Verdict | tuple[()]:
    return made_when_due(me, on, "no dew point was logged in that week")
