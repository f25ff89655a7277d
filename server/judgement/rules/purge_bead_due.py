"""The weekly bead of each purge line in use."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import DueOccasion
from server.judgement.dues import made_when_due
from server.judgement.rule import Rule, rule


@rule(
    id="purge-bead-due",
    asks="Was the weekly purge bead run?",
    level="due",
    severity=Severity.DECIDE,
    limit="purge_bead_every",
    limit_from="acceptance",
    causes=("C2",),
    why="It is the last good bead that bounds what a bad one puts in doubt.",
    do="Run one now; decide about the week.",
    cannot_tell="It may have been run and not logged.",
)
def purge_bead_due(me: Rule, on: DueOccasion) -> Verdict | tuple[()]:
    return made_when_due(me, on, "no purge bead was logged in that week")
