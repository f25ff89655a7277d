"""The heat one place has taken over all attempts on the same metal, in times that of the first."""

from collections.abc import Sequence

from server.facts.equipment import Acceptance
from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import HeatFact, JointOccasion
from server.judgement.against import DECIMALS
from server.judgement.rule import Rule, rule


@rule(
    id="heat-sum",
    asks="How much heat has this place taken over all attempts?",
    level="joint",
    severity=Severity.NOTE,
    limit="heat_sum",
    limit_from="acceptance",
    causes=("C13",),
    why="Each attempt may be within its limit and the place still cooked; the neighbours have had their share too.",
    do="Look at the joint and its neighbours before anything covers them.",
    cannot_tell="It adds what the counters saw; cooling in between is not taken off.",
)
def heat_sum(me: Rule, on: JointOccasion) -> Verdict | Sequence[Verdict]:
    limit = on.accept.get(me.limit)
    if limit is None or not on.heat:
        return me.not_asked()
    return [_quarter(me, on, limit, each) for each in on.heat]


def _quarter(me: Rule, on: JointOccasion, limit: Acceptance, heat: HeatFact) -> Verdict:
    subject = f"{on.subject}:{heat.quarter}"
    times = round(heat.sum_kj_per_mm / heat.first_kj_per_mm, DECIMALS)
    if times <= limit.value:
        return me.within(subject, *heat.entries, value=heat.sum_kj_per_mm)
    return me.outside(
        subject,
        f"{heat.sum_kj_per_mm:.2f} kJ/mm over {heat.arcs} arcs, {times:.1f} times the {heat.first_kj_per_mm:.2f} of "
        f"the first attempt; more than {limit.value:g} times is worth a look, here and at its neighbours.",
        *heat.entries,
        value=heat.sum_kj_per_mm,
        unit="kJ/mm",
        high=limit.value * heat.first_kj_per_mm,
        source=limit.source,
    )
