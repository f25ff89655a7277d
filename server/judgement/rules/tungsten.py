"""The tungsten's diameter, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.rule import Rule, rule


@rule(
    id="tungsten",
    asks="Was the tungsten of an allowed diameter?",
    level="pass",
    severity=Severity.DECIDE,
    limit="tungsten",
    limit_from="procedure",
    causes=("C6",),
    why="A tungsten too thin spits, one too thick wanders.",
    do="Change the tungsten.",
    cannot_tell="It is what was picked on the screen; nobody measured it.",
)
def tungsten(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
