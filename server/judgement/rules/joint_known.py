"""Whether every joint that was logged is on the frame's drawing."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_frame import FrameOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="joint-known",
    asks="Is every joint that was logged on the drawing?",
    level="frame",
    severity=Severity.DECIDE,
    limit_from="design",
    causes=("C17",),
    why="A joint no drawing knows is judged by nothing.",
    do="Correct the entry, or release the drawing the frame was really built to.",
    cannot_tell="It cannot tell a slip of the finger from a part nobody drew.",
)
def joint_known(me: Rule, on: FrameOccasion) -> Verdict:
    if not on.strange:
        return me.within(on.subject)
    return me.outside(on.subject, f"The drawing knows no joint {', '.join(on.strange)}.", value=on.strange[0])
