"""Purge flow before the arc, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.cautions import ARGON
from server.judgement.rule import Rule, rule


@rule(
    id="pre-purge-flow",
    asks="Was the purge flow before the arc within the limit?",
    level="pass",
    severity=Severity.DECIDE,
    limit="pre_purge_flow",
    limit_from="procedure",
    causes=("C3",),
    why="The flow before the arc decides how many volumes have passed.",
    do="Set the purge flow and start the pre-purge again.",
    cannot_tell="It is read at the line, not at the outlet.",
    caution=ARGON,
)
def pre_purge_flow(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
