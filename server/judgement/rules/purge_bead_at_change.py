"""Whether a bead was run on a purge line when its cylinder was changed."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import ChangeOccasion
from server.judgement.changes import bead_at_change
from server.judgement.rule import Rule, rule


@rule(
    id="purge-bead-at-change",
    asks="Was a purge bead run when the purge cylinder was changed?",
    level="change",
    severity=Severity.DECIDE,
    limit="purge_bead_at_change",
    limit_from="acceptance",
    causes=("C2",),
    why="A bad cylinder comes with the change; a bead then costs a minute, a week later it costs a week's joints.",
    do="Run the bead now, and decide about what was welded since the change.",
    cannot_tell="It knows whether a bead was logged, not how well it was looked at.",
)
def purge_bead_at_change(me: Rule, on: ChangeOccasion) -> Verdict | tuple[()]:
    return bead_at_change(me, on) if on.purge else ()
