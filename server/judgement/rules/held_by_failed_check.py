"""Whether a joint rests on something whose check failed afterwards, as long as no signed fact has let it out."""

from server.facts.judged import Severity, Verdict
from server.facts.moment import show_moment
from server.facts.occasion_joint import JointOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="held-by-failed-check",
    asks="Does this weld rest on something whose check failed afterwards?",
    level="joint",
    severity=Severity.STOP,
    causes=("C1", "C2", "C5", "C14"),
    why="Between the last good check and the failed one nobody knows from when on it was bad.",
    do="Hold it, cover nothing, ship nothing; narrow the set by a fact and sign it, or examine the joint.",
    cannot_tell="Being in the set is no defect: it says that the proof has fallen away, not that the seam is bad.",
)
def held_by_failed_check(me: Rule, on: JointOccasion) -> Verdict:
    if not on.holds:
        return me.not_asked()
    held = [hold for hold in on.holds if hold.cleared_by is None]
    if not held:
        reasons = " ".join(f"Let out by {hold.cleared_by}: {hold.cleared_reason}" for hold in on.holds)
        return me.within(on.subject, *(hold.check for hold in on.holds))._replace(message=reasons)
    since = f"since {show_moment(held[0].since_ms)}" if held[0].since_ms is not None else "since ever"
    gone = " The attempt itself has been removed." if on.removed else ""
    said = f"Rests on {held[0].subject}, a failed {held[0].kind}; it {held[0].because}, in doubt {since}.{gone}"
    rests_on = [entry for hold in held for entry in (hold.check, *hold.passes)]
    return me.outside(on.subject, said, *rests_on, value=held[0].check)
