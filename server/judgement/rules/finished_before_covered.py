"""Whether each quarter of a seam was filled before another tube was tacked over it."""

from collections.abc import Sequence

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import CoverFact, JointOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="finished-before-covered",
    asks="Was the quarter finished before another tube hid it?",
    level="joint",
    severity=Severity.STOP,
    limit_from="design",
    causes=("C16", "C17"),
    why="What is hidden unfinished stays unfinished: no torch and no eye will reach it again.",
    do="Cut the tack and finish the seam, or see it from inside before anything else is welded.",
    cannot_tell="It goes by quarters logged; a gap inside a quarter does not show.",
)
def finished_before_covered(me: Rule, on: JointOccasion) -> Verdict | Sequence[Verdict]:
    return [_quarter(me, on, cover) for cover in on.covers] or me.not_asked()


def _quarter(me: Rule, on: JointOccasion, cover: CoverFact) -> Verdict:
    subject = f"{on.subject}:{cover.quarter}"
    rests_on = (cover.tack_entry, cover.finished_entry) if cover.finished_entry else (cover.tack_entry,)
    if cover.finished:
        return me.within(subject, *rests_on)
    if cover.finished is None:
        said = f"Order not provable: filling and the tack of {cover.by} lie closer than their clocks can tell."
        return me.unknown(subject, said, *rests_on, value=cover.by)
    return me.outside(subject, f"{cover.by} was tacked over it before it was filled.", *rests_on, value=cover.by)
