"""The weekly cross-check of an analyser in use against a second one."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import DueOccasion
from server.judgement.dues import made_when_due
from server.judgement.rule import Rule, rule


@rule(
    id="cross-check-due",
    asks="Was the weekly cross-check made?",
    level="due",
    severity=Severity.NOTE,
    limit="cross_check_every",
    limit_from="acceptance",
    causes=("C5",),
    why="Two meters seldom go wrong together; the last one that agreed bounds what is in doubt.",
    do="Make it now.",
    cannot_tell="It may have been made and not logged.",
)
def cross_check_due(me: Rule, on: DueOccasion) -> Verdict | tuple[()]:
    return made_when_due(me, on, "no cross-check was logged in that week")
