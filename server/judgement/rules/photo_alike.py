"""Whether a picture of this joint looks so much like an earlier one of another that it may be a copy."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="photo-alike",
    asks="Is this picture a copy of another joint's?",
    level="joint",
    severity=Severity.NOTE,
    limit="alike_bits",
    limit_from="acceptance",
    causes=("C25",),
    why="A picture saved again has other bytes and the same face.",
    do="Lay the two side by side; if in doubt, take a new one.",
    cannot_tell="It compares the coarse look of two pictures; two plain pictures may look alike by chance.",
)
def photo_alike(me: Rule, on: JointOccasion) -> Verdict:
    limit = on.accept.get(me.limit)
    if limit is None or not on.pictures:
        return me.not_asked()
    alike = next((each for each in on.pictures if each.like is not None), None)
    if alike is None:
        return me.within(on.subject, *(each.entry for each in on.pictures))
    rests_on = [entry for entry in (alike.entry, alike.other_entry) if entry]
    return me.outside(
        on.subject,
        f"Its picture differs from that of {alike.like} in {alike.bits} of 64 bits only; lay them side by side.",
        *rests_on,
        value=alike.like,
        unit=limit.unit,
        high=limit.value,
        source=limit.source,
    )
