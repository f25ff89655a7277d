"""Whether a seam was finished all round when it was released."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="released-when-finished",
    asks="Was the seam finished when it was released?",
    level="joint",
    severity=Severity.DECIDE,
    causes=("C16",),
    why="A release over an open seam opens the next step for nothing.",
    do="Finish the seam, look at it again, release it again.",
    cannot_tell="It goes by quarters logged, in true time; passes still on a silent tablet come in later.",
)
def released_when_finished(me: Rule, on: JointOccasion) -> Verdict:
    if not on.releases:
        return me.not_asked()
    if any(each.finished for each in on.releases):
        return me.within(on.subject, *(each.entry for each in on.releases if each.finished))
    last = on.releases[-1]
    if last.finished is None:
        said = "Order not provable: release and last pass lie closer than their clocks can tell."
        return me.unknown(on.subject, said, last.entry)
    return me.outside(on.subject, f"{last.by} released it before every quarter was filled.", last.entry, value=last.by)
