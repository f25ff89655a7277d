"""The class of the rod in a fill, by the rod ends where they were read, else by the label, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="rod-class",
    asks="Is the rod in this fill of the class the procedure asks for?",
    level="pass",
    severity=Severity.STOP,
    limit="filler_class",
    limit_from="procedure",
    causes=("C8",),
    why="A softer rod in a strong joint looks right and carries a third less; no look from outside will ever find it.",
    do="Take the sleeve off the bench, read the ends of every rod in it, and hold the joints it went into.",
    cannot_tell="Where no rod end was read it believes the label; one wrong rod among right ones does not show.",
)
def rod_class(me: Rule, on: PassOccasion) -> Verdict:
    limit, rod = on.limits.get(me.limit), on.rod
    if limit is None or rod is None:
        return me.not_asked()
    found = rod.filler_class
    if found is None:
        said = f"Sleeve {rod.sleeve} has no label on file and its rod ends were never read; nobody knows its class."
        return me.unknown(on.subject, said, on.entry, allowed=limit.allowed, source=limit.source)
    rests_on = (on.entry, rod.read_entry) if rod.read_entry else (on.entry,)
    if found in limit.allowed:
        return me.within(on.subject, *rests_on, value=found)
    how = f"its label says {rod.label_class}, its rod ends say {found}" if rod.read_class else f"its label says {found}"
    return me.outside(
        on.subject,
        f"The fill took sleeve {rod.sleeve}: {how}; {' or '.join(limit.allowed)} is asked.",
        *rests_on,
        value=found,
        allowed=limit.allowed,
        source=limit.source,
    )
