"""Whether a welder went on under the procedures of a failed coupon before a good one."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_people import CouponOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="used-after-failed-coupon",
    asks="Did the welder stop after the coupon failed?",
    level="coupon",
    severity=Severity.STOP,
    causes=("C14",),
    why="From the failed coupon on, everybody could know.",
    do="Hold these joints too.",
    cannot_tell="A result entered late was not known at the bench; the true times show it.",
)
def used_after_failed_coupon(me: Rule, on: CouponOccasion) -> Verdict:
    if on.result != "failed":
        return me.not_asked()
    if not on.used_after:
        return me.within(on.subject, on.entry)
    said = f"{on.welder} made {len(on.used_after)} passes under {', '.join(on.procedures)} before a good coupon."
    return me.outside(on.subject, said, on.entry, *on.used_after, value=float(len(on.used_after)))
