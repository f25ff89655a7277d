"""The peak current as set, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.rule import Rule, rule


@rule(
    id="peak-current",
    asks="Was the peak current set within the limit?",
    level="pass",
    severity=Severity.DECIDE,
    limit="peak_current",
    limit_from="procedure",
    causes=("C13", "C14"),
    why="The peak decides how deep the pulse fuses.",
    do="Set the machine again and log it.",
    cannot_tell="It is what the panel said, not what the arc drew.",
)
def peak_current(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
