"""Whether the rod ends were read when a sleeve was opened."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_sleeve import SleeveOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="rod-ends-checked",
    asks="Were the rod ends read when the sleeve was opened?",
    level="sleeve",
    severity=Severity.DECIDE,
    causes=("C8",),
    why="The stamp on the rod is the maker's word; the label on the sleeve is ours.",
    do="Read them now, before the next fill.",
    cannot_tell="It knows that somebody read and what they read, not how many rods.",
)
def rod_ends_checked(me: Rule, on: SleeveOccasion) -> Verdict:
    if on.read_at_opening is not None:
        return me.within(on.subject, on.entry, value=on.read_at_opening)
    return me.unknown(on.subject, f"Sleeve {on.sleeve} was opened and its rod ends were not read then.", on.entry)
