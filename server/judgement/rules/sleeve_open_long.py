"""How long a rod sleeve stayed open."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_sleeve import SleeveOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="sleeve-open-long",
    asks="Was the sleeve closed again in time?",
    level="sleeve",
    severity=Severity.NOTE,
    limit="sleeve_open",
    limit_from="acceptance",
    causes=("C7", "C10"),
    why="Bare rods gather what is in the air of a workshop.",
    do="Wipe what is left, or give it back; open sleeves one at a time.",
    cannot_tell="It counts days between opening and closing, not what lay on the rods.",
)
def sleeve_open_long(me: Rule, on: SleeveOccasion) -> Verdict:
    limit = on.accept.get(me.limit)
    if limit is None:
        return me.not_asked()
    if on.open_days <= limit.value:
        return me.within(on.subject, on.entry, value=on.open_days)
    return me.outside(
        on.subject,
        f"Sleeve {on.sleeve} was open for {on.open_days:.0f} days; at most {limit.value:g} are allowed.",
        on.entry,
        value=on.open_days,
        unit=limit.unit,
        high=limit.value,
        source=limit.source,
    )
