"""Whether the sleeve a fill names was open at the time."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="sleeve-open",
    asks="Was the sleeve named in this fill open then?",
    level="pass",
    severity=Severity.NOTE,
    causes=("C7", "C8"),
    why="A fill from a sleeve that was shut names the wrong sleeve, or the sleeve was opened without a word.",
    do="Ask which sleeve it was; correct the entry or log the opening.",
    cannot_tell="Times of opening only cross-check the name on the fill: two sleeves may be open at once.",
)
def sleeve_open(me: Rule, on: PassOccasion) -> Verdict:
    rod = on.rod
    if rod is None or rod.was_open is None:
        return me.not_asked()
    if rod.was_open:
        return me.within(on.subject, on.entry, value=rod.sleeve)
    said = f"The fill names sleeve {rod.sleeve}, which was not open then."
    return me.outside(on.subject, said, on.entry, value=rod.sleeve)
