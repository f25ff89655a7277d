"""The pause between the last arc on a joint and a repair, against the repair procedure."""

from math import sqrt

from server.facts.figure import Figure
from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.against import compared
from server.judgement.cautions import HOT
from server.judgement.rule import Rule, rule


@rule(
    id="cool-time",
    asks="Was the pause since the last arc long enough?",
    level="joint",
    severity=Severity.DECIDE,
    limit="cool_time",
    limit_from="procedure",
    causes=("C13",),
    why="Heat from the last attempt adds to the next; the pause lets tube and lug come down together.",
    do="Wait until the pause is over, then measure the metal before the arc.",
    cannot_tell="It counts from arc off to arc on; grinding in between is not rest, and does not show.",
    caution=HOT,
)
def cool_time(me: Rule, on: JointOccasion) -> Verdict:
    limit = on.limits.get(me.limit)
    if on.repair is None or limit is None or on.repair.pause_min is None:
        return me.not_asked()
    last = on.repair.last_arc_entry or on.passes[0].entry
    pause = Figure(on.repair.pause_min, on.repair.pause_error_min / sqrt(3), "computed", None, last)
    return compared(me, on.subject, limit, pause, on.passes[0].entry)
