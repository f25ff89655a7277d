"""Whether a colour was looked at only after finishing, when it shows nothing any more."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="colour-as-welded",
    asks="Was the colour looked at as welded?",
    level="joint",
    severity=Severity.DECIDE,
    causes=("C6", "C25"),
    why="Brushing, blasting and pickling take the colour away and leave what caused it.",
    do="The look is void as evidence of shielding; decide by other evidence, or section a sister.",
    cannot_tell="It believes what the look says of itself.",
)
def colour_as_welded(me: Rule, on: JointOccasion) -> Verdict:
    void = [look for look in on.looks if look.grade is not None and not look.as_welded]
    if not void:
        return me.not_asked()
    sides = {look.side for look in on.looks if look.grade is not None and look.as_welded}
    alone = [look for look in void if look.side not in sides]
    if not alone:
        return me.within(on.subject, *(look.entry for look in void))
    said = f"The {alone[0].side} was graded only after finishing; as evidence of its shielding that is void."
    return me.outside(on.subject, said, *(look.entry for look in alone))
