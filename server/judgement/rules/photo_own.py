"""Whether a picture of this joint is the very picture of another one."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="photo-own",
    asks="Does this picture belong to this joint?",
    level="joint",
    severity=Severity.DECIDE,
    causes=("C25",),
    why="One picture shows one joint; hung on two, it is evidence of neither.",
    do="Take a new picture while the place can still be seen. The picture is void; the weld is not accused.",
    cannot_tell="It knows bytes: a picture taken of the wrong joint and sent once does not show.",
)
def photo_own(me: Rule, on: JointOccasion) -> Verdict:
    if not on.pictures:
        return me.not_asked()
    copied = next((each for each in on.pictures if each.same_as is not None), None)
    if copied is None:
        return me.within(on.subject, *(each.entry for each in on.pictures))
    severity = Severity.STOP if on.hidden_later else me.severity
    said = f"Its picture is the one of {copied.same_as}; as evidence of this joint it is void."
    soon = " This seam will be hidden: a new picture comes first." if on.hidden_later else ""
    rests_on = [entry for entry in (copied.entry, copied.other_entry) if entry]
    return me.outside(on.subject, said + soon, *rests_on, value=copied.same_as, severity=severity)
