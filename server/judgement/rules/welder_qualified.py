"""Whether the welder was qualified on that day for that procedure, thickness and diameter."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="welder-qualified",
    asks="Was the welder qualified for this joint on that day?",
    level="pass",
    severity=Severity.STOP,
    limit_from="register",
    causes=("C20",),
    why="A qualification is the proof that this hand makes this joint; without it nobody has shown that it holds.",
    do="Somebody qualified takes over until a new test piece is good; the quality lead decides about the joint.",
    cannot_tell="A good coupon does not renew a qualification, and a valid paper does not make a good seam.",
)
def welder_qualified(me: Rule, on: PassOccasion) -> Verdict:
    standing = on.standing
    if standing.valid:
        return me.within(on.subject, on.entry, value=standing.qualification)
    said = f"Welder {on.welder} was not qualified for {on.joint.id} on that day: {standing.reason}."
    return me.outside(on.subject, said, on.entry, value=standing.qualification)
