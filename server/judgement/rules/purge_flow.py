"""Purge flow while welding, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.cautions import ARGON
from server.judgement.rule import Rule, rule


@rule(
    id="purge-flow",
    asks="Was the purge flow while welding within the limit?",
    level="pass",
    severity=Severity.DECIDE,
    limit="purge_flow",
    limit_from="procedure",
    causes=("C3", "C4"),
    why="Too little lets air back in; too much blows the root out.",
    do="Set the purge flow again before the arc.",
    cannot_tell="It is read at the line, not at the seam: a leak between them does not show.",
    caution=ARGON,
)
def purge_flow(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
