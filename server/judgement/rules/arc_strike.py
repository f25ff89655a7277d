"""Whether the arc was struck beside the joint."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.cautions import FINES
from server.judgement.rule import Rule, rule


@rule(
    id="arc-strike",
    asks="Was the arc struck beside the joint?",
    level="joint",
    severity=Severity.DECIDE,
    causes=("C18",),
    why="A strike is a small weld without gas on a thin wall: a crack starter.",
    do="Dress it, look at it with penetrant, measure the wall, and decide about the tube.",
    cannot_tell="Only strikes that somebody owned up to are here.",
    caution=FINES,
)
def arc_strike(me: Rule, on: JointOccasion) -> Verdict:
    if not on.strikes:
        return me.not_asked()
    return me.outside(on.subject, "An arc strike beside the joint waits for its disposition.", *on.strikes)
