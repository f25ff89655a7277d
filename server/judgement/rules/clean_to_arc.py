"""How long before the arc the joint was cleaned."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="clean-to-arc",
    asks="Was the joint cleaned shortly enough before the arc?",
    level="pass",
    severity=Severity.NOTE,
    limit="clean_to_arc",
    limit_from="acceptance",
    causes=("C10", "C26"),
    why="Bare titanium gathers dust, oil and fingers from the moment it is wiped.",
    do="Wipe again before the arc, with a solvent without chlorine, and let it dry.",
    cannot_tell="It knows when somebody logged the cleaning; what touched the joint since does not show.",
    caution=(
        "The arc turns chlorinated vapour into phosgene: no such solvent near it (OSHA 29 CFR 1910.252(c)). "
        "Local codes, your qualified procedure and licensed practice come first."
    ),
)
def clean_to_arc(me: Rule, on: PassOccasion) -> Verdict:
    limit = on.accept.get(me.limit)
    if limit is None or on.clean_to_arc_h is None or not on.first_of_joint:
        return me.not_asked()
    rests_on = (on.entry, on.clean_entry) if on.clean_entry else (on.entry,)
    if on.clean_to_arc_h <= limit.value:
        return me.within(on.subject, *rests_on, value=on.clean_to_arc_h)
    return me.outside(
        on.subject,
        f"Cleaned {on.clean_to_arc_h:.1f} h before the arc; at most {limit.value:g} h is allowed.",
        *rests_on,
        value=on.clean_to_arc_h,
        unit=limit.unit,
        high=limit.value,
        source=limit.source,
    )
