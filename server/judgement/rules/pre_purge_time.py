"""Minutes from purge on to the first arc of a set-up, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.cautions import ARGON
from server.judgement.rule import Rule, rule


@rule(
    id="pre-purge-time",
    asks="Was the set-up purged long enough before the first arc?",
    level="pass",
    severity=Severity.DECIDE,
    limit="pre_purge",
    limit_from="procedure",
    causes=("C3",),
    why="Air in the tube takes time to leave, however good the gas.",
    do="Purge on and take the oxygen reading again before the arc.",
    cannot_tell="It counts from the tap that turned the purge on; it does not see a cap that fell off.",
    caution=ARGON,
)
def pre_purge_time(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
