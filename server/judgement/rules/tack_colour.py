"""Whether a discoloured tack was left in."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import TackOccasion
from server.judgement.cautions import FINES
from server.judgement.rule import Rule, rule


@rule(
    id="tack-colour",
    asks="Was a discoloured tack cut out again?",
    level="tack",
    severity=Severity.DECIDE,
    limit="tack_grade",
    limit_from="acceptance",
    causes=("C19",),
    why="The root fuses a dirty tack into the seam, where it stays.",
    do="Cut the tack out and log it; then tack again under gas.",
    cannot_tell="It is the colour somebody picked, outside; the inside of a tack is not seen.",
    caution=FINES,
)
def tack_colour(me: Rule, on: TackOccasion) -> Verdict:
    limit = on.accept.get(me.limit)
    if limit is None or on.colour is None:
        return me.not_asked()
    if on.colour <= limit.value or on.removed:
        return me.within(on.subject, on.entry, value=float(on.colour))
    return me.outside(
        on.subject,
        f"A tack of grade {on.colour} was left in; at most {limit.value:g} may stay.",
        on.entry,
        value=float(on.colour),
        unit=limit.unit,
        high=limit.value,
        source=limit.source,
    )
