"""Whether a production weld was made under the card of the procedure its joint is drawn for."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="procedure-shown",
    asks="Was the card shown the one of this joint's procedure?",
    level="pass",
    severity=Severity.DECIDE,
    limit_from="design",
    causes=("C21",),
    why="Each kind of joint has its own limits; under another card the tablet warned of the wrong ones.",
    do="Check the values against the right procedure, which the other findings have done, and decide.",
    cannot_tell="It knows which card was on the screen, not which limits the welder had in mind.",
)
def procedure_shown(me: Rule, on: PassOccasion) -> Verdict:
    if on.repair or on.shown is None:
        return me.not_asked()
    if on.shown.procedure == on.joint.procedure:
        return me.within(on.subject, on.entry, value=on.shown.procedure)
    said = f"The tablet showed {on.shown.procedure}; joint {on.joint.id} is drawn for {on.joint.procedure}."
    return me.outside(on.subject, said, on.entry, value=on.shown.procedure, allowed=(on.joint.procedure,))
