"""Whether the rod ends of a sleeve agree with its label."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_sleeve import SleeveOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="rod-ends-agree",
    asks="Do the rod ends say what the label says?",
    level="sleeve",
    severity=Severity.STOP,
    limit_from="register",
    causes=("C8",),
    why="One of the two is wrong, and a seam does not forgive the wrong one.",
    do="Take the sleeve off the bench; find the fills that took from it; look at the others of its delivery.",
    cannot_tell="It compares what was read with the register, not with the metal.",
)
def rod_ends_agree(me: Rule, on: SleeveOccasion) -> Verdict:
    read = on.read_later or on.read_at_opening
    if read is None or on.label_class is None:
        return me.not_asked()
    rests_on = (on.entry, on.read_later_entry) if on.read_later_entry else (on.entry,)
    if read == on.label_class:
        return me.within(on.subject, *rests_on, value=read)
    said = f"Sleeve {on.sleeve}: the label says {on.label_class}, the rod ends say {read}."
    return me.outside(on.subject, said, *rests_on, value=read, allowed=(on.label_class,))
