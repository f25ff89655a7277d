"""Whether the steps the drawing wants first were taken first."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.needed import needed_first
from server.judgement.rule import Rule, rule


@rule(
    id="order-of-work",
    asks="Were the steps before this one taken before it?",
    level="joint",
    severity=Severity.DECIDE,
    limit_from="design",
    causes=("C17",),
    why="The order keeps every seam within reach and the frame from pulling itself out of line.",
    do="Look at what the missing step would have shown, and decide.",
    cannot_tell="It goes by true times of what was logged; a step nobody logged looks like one not taken.",
)
def order_of_work(me: Rule, on: JointOccasion) -> Verdict:
    return needed_first(me, on, [need for need in on.needs if not need.geometry])
