"""Whether a gas line was welded with after its bead had failed, before a good one."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import BeadOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="used-after-failed-bead",
    asks="Did the line stand still after its bead failed?",
    level="bead",
    severity=Severity.STOP,
    causes=("C1", "C2"),
    why="From the failed bead on, everybody could know.",
    do="Stop the line; hold these passes too.",
    cannot_tell="It goes by true times of what was logged.",
)
def used_after_failed_bead(me: Rule, on: BeadOccasion) -> Verdict:
    if on.result != "failed":
        return me.not_asked()
    if not on.used_after:
        return me.within(on.subject, on.entry)
    said = f"{len(on.used_after)} passes were made on {on.line} after its bead had failed and before a good one."
    return me.outside(on.subject, said, on.entry, *on.used_after, value=float(len(on.used_after)))
