"""The torch bead of each shift in which a torch line was used."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import DueOccasion
from server.judgement.dues import made_when_due
from server.judgement.rule import Rule, rule


@rule(
    id="torch-bead-due",
    asks="Was the torch bead of the shift run?",
    level="due",
    severity=Severity.DECIDE,
    limit="torch_bead_every",
    limit_from="acceptance",
    causes=("C1", "C6"),
    why="Without it the first joint of the shift is the bead.",
    do="Decide about the shift's joints by their colours; run the bead tomorrow before the arc.",
    cannot_tell="It may have been run and not logged.",
)
def torch_bead_due(me: Rule, on: DueOccasion) -> Verdict | tuple[()]:
    return made_when_due(me, on, "no torch bead was logged that day")
