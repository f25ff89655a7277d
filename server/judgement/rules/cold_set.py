"""Whether a frame was bent cold to bring it into line."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_frame import FrameOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="cold-set",
    asks="Was the frame bent cold to bring it into line?",
    level="frame",
    severity=Severity.NOTE,
    causes=("C23",),
    why="Bending leaves stress in tube and seam that rides along for good.",
    do="Note how much and where; look at the seams nearest to the bend.",
    cannot_tell="Only what was logged as cold-set shows.",
)
def cold_set(me: Rule, on: FrameOccasion) -> Verdict:
    if not on.geometry:
        return me.not_asked()
    bent = [each for each in on.geometry if each.cold_set]
    if not bent:
        return me.within(on.subject, *(each.entry for each in on.geometry))
    said = f"The frame was cold-set at check {bent[0].check}."
    return me.outside(on.subject, said, *(each.entry for each in bent), value=bent[0].check)
