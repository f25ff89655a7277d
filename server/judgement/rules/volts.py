"""The mean arc voltage over a pass, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.rule import Rule, rule


@rule(
    id="volts",
    asks="Was the arc voltage within the limit?",
    level="pass",
    severity=Severity.DECIDE,
    limit="volts",
    limit_from="procedure",
    causes=("C6", "C14"),
    why="Volts follow the arc length: a long arc loses its gas cover and wanders.",
    do="Look at arc length, tungsten and earth clamp before the next pass.",
    cannot_tell="It is a mean over the pass, and it holds the drop of the leads.",
)
def volts(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
