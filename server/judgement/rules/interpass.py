"""The metal's temperature before a pass, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.cautions import HOT
from server.judgement.rule import Rule, rule


@rule(
    id="interpass",
    asks="Was the metal cool enough before this pass?",
    level="pass",
    severity=Severity.DECIDE,
    limit="interpass",
    limit_from="procedure",
    causes=("C13",),
    why="Heat from pass to pass adds up, and warm metal takes oxygen for longer after the arc.",
    do="Wait, measure again with the contact thermometer, then weld.",
    cannot_tell="It is one spot at one moment, touched by hand.",
    caution=HOT,
)
def interpass(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
