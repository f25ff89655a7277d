"""Whether a hand could have welded that fast at all."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="travel-possible",
    asks="Can a hand weld that fast?",
    level="pass",
    severity=Severity.DECIDE,
    limit="possible_travel",
    limit_from="acceptance",
    causes=("C25",),
    why="A speed no hand reaches means that the entry tells of another seam, or of none.",
    do="Ask what was welded. The record is void until it is mended; the weld itself is not accused.",
    cannot_tell="Quarters ticked that were not welded look the same.",
)
def travel_possible(me: Rule, on: PassOccasion) -> Verdict:
    limit, travel = on.accept.get(me.limit), on.figures.get("travel")
    if limit is None or travel is None:
        return me.not_asked()
    if travel.value <= limit.value:
        return me.within(on.subject, on.entry, value=travel.value)
    return me.outside(
        on.subject,
        f"The entry tells of {travel.value:.0f} mm/min; no hand welds faster than {limit.value:g}. Evidence void.",
        on.entry,
        value=travel.value,
        unit=limit.unit,
        high=limit.value,
        source=limit.source,
    )
