"""Torch gas before the arc as set, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.rule import Rule, rule


@rule(
    id="pre-flow",
    asks="Was the torch gas on long enough before the arc?",
    level="pass",
    severity=Severity.DECIDE,
    limit="pre_flow",
    limit_from="procedure",
    causes=("C6",),
    why="The hose is full of air until it is flushed.",
    do="Set the pre-flow again.",
    cannot_tell="It is what the panel said.",
)
def pre_flow(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
