"""Whether a fill names the sleeve its rod came from."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.asking import FILLED, asked
from server.judgement.rule import Rule, rule


@rule(
    id="sleeve-named",
    asks="Which sleeve went into this fill?",
    level="pass",
    severity=Severity.STOP,
    limit="filler_class",
    limit_from="procedure",
    causes=("C8", "C9"),
    why="Without its sleeve nobody can ever say what is in the seam, nor find it when a sleeve turns out wrong.",
    do="Ask the welder now, while the rods still lie on the bench; correct the entry, or decide about the seam.",
    cannot_tell="It cannot tell whether the sleeve named is the one the rod came from.",
)
def sleeve_named(me: Rule, on: PassOccasion) -> Verdict:
    limit = on.limits.get(me.limit)
    if limit is None or on.run not in FILLED or not asked(limit, on):
        return me.not_asked()
    if on.rod is not None or on.no_filler:
        return me.within(on.subject, on.entry, value=on.rod.sleeve if on.rod else "no filler")
    return me.unknown(on.subject, f"The {on.run} names no sleeve; nobody can say which rod is in it.", on.entry)
