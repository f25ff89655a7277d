"""Whether a bead was run on a torch line when its cylinder was changed."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import ChangeOccasion
from server.judgement.changes import bead_at_change
from server.judgement.rule import Rule, rule


@rule(
    id="torch-bead-at-change",
    asks="Was a torch bead run when the torch cylinder was changed?",
    level="change",
    severity=Severity.DECIDE,
    limit="torch_bead_at_change",
    limit_from="acceptance",
    causes=("C1",),
    why="A bad cylinder comes with the change.",
    do="Run the bead now, and decide about what was welded since the change.",
    cannot_tell="It knows whether a bead was logged, not how well it was looked at.",
)
def torch_bead_at_change(me: Rule, on: ChangeOccasion) -> Verdict | tuple[()]:
    return () if on.purge else bead_at_change(me, on)
