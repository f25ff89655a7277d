"""Torch gas flow at the cup, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.cautions import ARGON
from server.judgement.rule import Rule, rule


@rule(
    id="torch-flow",
    asks="Was the torch gas flow within the limit?",
    level="pass",
    severity=Severity.DECIDE,
    limit="torch_flow",
    limit_from="procedure",
    causes=("C6", "C11"),
    why="Too little does not cover, too much pulls air in.",
    do="Set the flow at the cup, then run a test bead.",
    cannot_tell="A flow at the cup says nothing of a draught at the seam.",
    caution=ARGON,
)
def torch_flow(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
