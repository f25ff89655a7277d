"""The pulse frequency as set, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.rule import Rule, rule


@rule(
    id="frequency",
    asks="Was the pulse frequency set within the limit?",
    level="pass",
    severity=Severity.DECIDE,
    limit="frequency",
    limit_from="procedure",
    causes=("C14",),
    why="The hand dabs in step with the pulse; another beat spoils the bead.",
    do="Set the machine again and log it.",
    cannot_tell="It is what the panel said, not what the arc drew.",
)
def frequency(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
