"""The fit-up gap before the first tack, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.limit import Limit, MeasuringPlan
from server.facts.occasion_joint import JointOccasion
from server.judgement.against import bounds, compared
from server.judgement.rule import Rule, rule


@rule(
    id="fit-up-gap",
    asks="Was the fit-up gap measured before the first tack, and within the limit?",
    level="joint",
    severity=Severity.DECIDE,
    limit="gap",
    limit_from="procedure",
    causes=("C15",),
    why="A gap asks for more heat and more rod, and leaves a notch where the load runs.",
    do="Do not tack; fit the tube again. A gap already tacked over is decided by the quality lead.",
    cannot_tell="It is the widest gap somebody found, at the places they put the gauge.",
)
def fit_up_gap(me: Rule, on: JointOccasion) -> Verdict:
    limit = on.limits.get(me.limit)
    if limit is None:
        return _by_the_shop(me, on)
    if on.gap is not None:
        return compared(me, on.subject, limit, on.gap, on.gap.entry)
    if not on.gap_due or limit.plan.when == "never":
        return me.not_asked()
    return me.unknown(
        on.subject,
        f"No fit-up gap was recorded before the first tack; {bounds(limit)}.",
        *(tack.entry for tack in on.tacks[:1]),
        unit=limit.unit,
        high=limit.high,
        source=limit.source,
    )


def _by_the_shop(me: Rule, on: JointOccasion) -> Verdict:
    """A procedure that sets no gap asks for none; one that was measured is held against the shop's own figure."""
    figure = on.accept.get(me.limit)
    if figure is None or on.gap is None:
        return me.not_asked()
    plan = MeasuringPlan(when="never")
    own = Limit(name="gap", unit="mm", high=figure.value, source=figure.source, valid_from=figure.valid_from, plan=plan)
    return compared(me, on.subject, own, on.gap, on.gap.entry)
