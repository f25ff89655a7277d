"""How many repairs one place has had, against the repair procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="repair-count",
    asks="Is this location within the number of repairs allowed?",
    level="joint",
    severity=Severity.STOP,
    limit="repairs",
    limit_from="procedure",
    causes=("C13",),
    why="Every repair is a new weld in metal that has had one; beyond a few, a new piece is the honest way.",
    do="Do not repair again; the owner decides about the piece.",
    cannot_tell="It counts repairs logged on the same piece and overlapping quarters.",
)
def repair_count(me: Rule, on: JointOccasion) -> Verdict:
    limit = on.limits.get(me.limit)
    if on.repair is None or limit is None or limit.high is None:
        return me.not_asked()
    arcs = tuple(each.entry for each in on.passes)
    if on.repair.number <= limit.high:
        return me.within(on.subject, *arcs, value=float(on.repair.number))
    return me.outside(
        on.subject,
        f"This is repair {on.repair.number} at one place; at most {limit.high:g} are allowed.",
        *arcs,
        value=float(on.repair.number),
        unit=limit.unit,
        high=limit.high,
        source=limit.source,
    )
