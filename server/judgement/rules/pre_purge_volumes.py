"""Volume changes of a set-up before its first arc, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.cautions import ARGON
from server.judgement.rule import Rule, rule


@rule(
    id="pre-purge-volumes",
    asks="Had the gas in the set-up been changed often enough before the first arc?",
    level="pass",
    severity=Severity.DECIDE,
    limit="pre_purge_volumes",
    limit_from="procedure",
    causes=("C3",),
    why="Mixed gas thins out volume by volume; a long tube needs more than a short one.",
    do="Purge on and take the oxygen reading again before the arc.",
    cannot_tell="It assumes good mixing and the volume of the drawing; dead corners do not show.",
    caution=ARGON,
)
def pre_purge_volumes(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
