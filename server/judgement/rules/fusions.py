"""How often one place of a joint was fused in this attempt, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.against import bounds
from server.judgement.rule import Rule, rule


@rule(
    id="fusions",
    asks="Is the number of fusions at this place within the limit?",
    level="joint",
    severity=Severity.DECIDE,
    limit="fusions",
    limit_from="procedure",
    causes=("C13",),
    why="Each time over grows the grain and takes up a little more oxygen; a smooth bead may be a tired one.",
    do="Do not fuse it again; the quality lead decides.",
    cannot_tell="It counts passes logged by quarter; a short touch-up inside a pass does not show.",
)
def fusions(me: Rule, on: JointOccasion) -> Verdict:
    limit = on.limits.get(me.limit)
    if limit is None or limit.high is None or not on.passes:
        return me.not_asked()
    if on.fusions <= limit.high:
        return me.within(on.subject, *on.fusion_entries, value=float(on.fusions))
    return me.outside(
        on.subject,
        f"One place was fused {on.fusions} times; {bounds(limit)}.",
        *on.fusion_entries,
        value=float(on.fusions),
        unit=limit.unit,
        high=limit.high,
        source=limit.source,
    )
