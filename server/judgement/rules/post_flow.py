"""Torch gas after the arc as set, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.cautions import HOT
from server.judgement.rule import Rule, rule


@rule(
    id="post-flow",
    asks="Was the torch gas held long enough after the arc?",
    level="pass",
    severity=Severity.DECIDE,
    limit="post_flow",
    limit_from="procedure",
    causes=("C6",),
    why="Titanium takes up oxygen until it is well below a glow; the end of the bead is where it shows.",
    do="Set the post-flow; look at the colour of the last millimetres.",
    cannot_tell="It is what the panel said: a torch lifted early does not show here.",
    caution=HOT,
)
def post_flow(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
