"""The cup's number, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.rule import Rule, rule


@rule(
    id="cup",
    asks="Was the cup of an allowed size?",
    level="pass",
    severity=Severity.DECIDE,
    limit="cup",
    limit_from="procedure",
    causes=("C6",),
    why="A small cup leaves the hot metal outside the gas.",
    do="Change the cup and run a test bead.",
    cannot_tell="It says nothing about a blocked lens.",
)
def cup(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
