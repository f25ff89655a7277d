"""The colour outside, by zone, against the procedure; a narrow edge band alone is tolerated."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.cautions import HOT
from server.judgement.colours import graded, limit_for, missed, standing_looks, worst_beyond
from server.judgement.rule import Rule, rule


@rule(
    id="outside-colour",
    asks="Is the bead colour outside within the limit?",
    level="joint",
    severity=Severity.DECIDE,
    limit="colour",
    limit_from="procedure",
    causes=("C1", "C6", "C7"),
    why="The colour is the thickness of the oxide: past straw, the metal under it has taken up oxygen while hot.",
    do="Do not brush it off and do not weld over it; show the quality lead.",
    cannot_tell="A silver outside says nothing of the inside, and brushed metal says nothing at all.",
    caution=HOT,
)
def outside_colour(me: Rule, on: JointOccasion) -> Verdict:
    limit = limit_for(on, "outside", "bead")
    if limit is None or not on.passes:
        return me.not_asked()
    looks = standing_looks(on, "outside")
    beyond = worst_beyond(me, on, looks)
    if beyond is not None:
        return beyond
    if any(look.zone == "bead" and look.after_last_pass for look in looks):
        return graded(me, on, looks)
    return missed(me, on, limit, "outside") if on.looks_due else me.not_asked()
