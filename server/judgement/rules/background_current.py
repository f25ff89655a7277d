"""The background current as set, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.rule import Rule, rule


@rule(
    id="background-current",
    asks="Was the background current set within the limit?",
    level="pass",
    severity=Severity.DECIDE,
    limit="background_current",
    limit_from="procedure",
    causes=("C13",),
    why="Too high a background takes the pulse its use and heats the tube between peaks.",
    do="Set the machine again and log it.",
    cannot_tell="It is what the panel said, not what the arc drew.",
)
def background_current(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
