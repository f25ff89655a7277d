"""Whether a seam was released before another tube was tacked over it; milder when it was finished and seen by then."""

from collections.abc import Sequence

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import CoverFact, JointOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="released-before-covered",
    asks="Was the seam released before another tube was tacked over it?",
    level="joint",
    severity=Severity.DECIDE,
    limit_from="design",
    causes=("C16",),
    why="A second pair of eyes sees the seam while it still can be seen.",
    do="Whoever may release looks at what was recorded before the tack, and signs what it is worth.",
    cannot_tell="A late release may only be a late signature; the record shows whether the evidence was there.",
)
def released_before_covered(me: Rule, on: JointOccasion) -> Verdict | Sequence[Verdict]:
    return [_cover(me, on, cover) for cover in on.covers] or me.not_asked()


def _cover(me: Rule, on: JointOccasion, cover: CoverFact) -> Verdict:
    rests_on = (cover.tack_entry, cover.released_entry) if cover.released_entry else (cover.tack_entry,)
    if cover.released:
        return me.within(on.subject, *rests_on)
    if cover.released is None:
        said = f"Order not provable: release and the tack of {cover.by} lie closer than their clocks can tell."
        return me.unknown(on.subject, said, *rests_on, value=cover.by)
    if cover.evidence_before:
        said = f"{cover.by} was tacked over it before it was released; it was finished and looked at by then."
        return me.outside(on.subject, said, *rests_on, value=cover.by, severity=Severity.NOTE)
    said = f"{cover.by} was tacked over it before it was released."
    return me.outside(on.subject, said, *rests_on, value=cover.by)
