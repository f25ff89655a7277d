"""Whether the geometry check the drawing wants was good before the next step was taken."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.needed import needed_first
from server.judgement.rule import Rule, rule


@rule(
    id="geometry-before-next",
    asks="Was the geometry check done before the next step?",
    level="joint",
    severity=Severity.DECIDE,
    limit_from="design",
    causes=("C17", "C23"),
    why="A twist found after the next tube is in is pulled straight by force, and the force stays in the seam.",
    do="Measure now; if it is out, take the last tube out again instead of bending.",
    cannot_tell="A good check afterwards shows the frame is straight, not that nothing was forced.",
)
def geometry_before_next(me: Rule, on: JointOccasion) -> Verdict:
    return needed_first(me, on, [need for need in on.needs if need.geometry])
