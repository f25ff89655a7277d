"""Whether the purge reading a pass rests on was taken shortly before its arc."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="reading-fresh",
    asks="Was the purge reading fresh at arc start?",
    level="pass",
    severity=Severity.DECIDE,
    limit="reading_age",
    limit_from="acceptance",
    causes=("C3",),
    why="A tape lifts, a cap falls off: gas that was good an hour ago says little now.",
    do="Take a new reading before the next arc.",
    cannot_tell="It knows the age of the reading, not what happened since.",
)
def reading_fresh(me: Rule, on: PassOccasion) -> Verdict:
    limit, oxygen = on.accept.get(me.limit), on.limits.get("oxygen")
    if limit is None or oxygen is None or oxygen.plan.when != "every pass" or "oxygen" not in on.figures:
        return me.not_asked()
    figure = on.figures["oxygen"]
    if on.oxygen_age_min is None:
        if figure.how != "inherited":
            return me.within(on.subject, on.entry)
        said = "The purge reading is inherited from an earlier pass, how old, nobody noted; each pass takes its own."
        return me.unknown(on.subject, said, on.entry, unit=limit.unit, high=limit.value, source=limit.source)
    if on.oxygen_age_min <= limit.value:
        return me.within(on.subject, on.entry, figure.entry, value=on.oxygen_age_min)
    return me.outside(
        on.subject,
        f"The purge reading was {on.oxygen_age_min:.0f} min old at arc start; at most {limit.value:g} min is allowed.",
        on.entry,
        figure.entry,
        value=on.oxygen_age_min,
        unit=limit.unit,
        high=limit.value,
        source=limit.source,
    )
