"""The tungsten's type, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import bounds, missing
from server.judgement.asking import asked
from server.judgement.rule import Rule, rule


@rule(
    id="tungsten-type",
    asks="Was the tungsten of an allowed type?",
    level="pass",
    severity=Severity.NOTE,
    limit="tungsten_type",
    limit_from="procedure",
    causes=("C6",),
    why="Another type starts and wears differently; thoriated tungsten gives radioactive dust when ground.",
    do="Change the tungsten; log which one is in.",
    cannot_tell="It is what was picked on the screen.",
    caution=(
        "Grinding thoriated tungsten makes radioactive dust: extraction, and better another type (AWS Fact Sheet 27). "
        "Local codes, your qualified procedure and licensed practice come first."
    ),
)
def tungsten_type(me: Rule, on: PassOccasion) -> Verdict:
    limit = on.limits.get(me.limit)
    if limit is None:
        return me.not_asked()
    if on.tungsten_type is None:
        return missing(me, on, limit) if asked(limit, on) else me.not_asked()
    if on.tungsten_type in limit.allowed:
        return me.within(on.subject, on.entry, value=on.tungsten_type)
    return me.outside(
        on.subject,
        f"Tungsten {on.tungsten_type}; {bounds(limit)}.",
        on.entry,
        value=on.tungsten_type,
        allowed=limit.allowed,
        source=limit.source,
    )
