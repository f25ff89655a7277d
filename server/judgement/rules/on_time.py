"""The share of the pulse at peak as set, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.rule import Rule, rule


@rule(
    id="on-time",
    asks="Was the peak on-time set within the limit?",
    level="pass",
    severity=Severity.DECIDE,
    limit="on_time",
    limit_from="procedure",
    causes=("C13",),
    why="The share at peak sets the mean current together with peak and background.",
    do="Set the machine again and log it.",
    cannot_tell="It is what the panel said, not what the arc drew.",
)
def on_time(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
