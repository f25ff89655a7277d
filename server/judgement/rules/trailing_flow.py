"""Trailing gas flow, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.cautions import ARGON
from server.judgement.rule import Rule, rule


@rule(
    id="trailing-flow",
    asks="Was the trailing gas flow within the limit?",
    level="pass",
    severity=Severity.DECIDE,
    limit="trailing_flow",
    limit_from="procedure",
    causes=("C6",),
    why="The trailing gas covers metal the torch has left while it is still hot.",
    do="Set the flow again.",
    cannot_tell="It says nothing of how close the shield lay.",
    caution=ARGON,
)
def trailing_flow(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
