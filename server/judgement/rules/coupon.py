"""The result of a welder's bent coupon."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_people import CouponOccasion
from server.judgement.cautions import TEST_PIECE
from server.judgement.rule import Rule, rule


@rule(
    id="coupon",
    asks="Did the welder's coupon bend without cracking?",
    level="coupon",
    severity=Severity.STOP,
    causes=("C14", "C1"),
    why="A coupon bends what no eye can see; with good gas, a crack is the hand or the machine.",
    do="The welder stops on these procedures; hold their joints since the last good coupon; find out why.",
    cannot_tell="It tells that something is wrong, not since when.",
    caution=TEST_PIECE,
)
def coupon(me: Rule, on: CouponOccasion) -> Verdict:
    if on.result == "good":
        return me.within(on.subject, on.entry)
    if on.result == "waiting":
        return me.unknown(on.subject, f"The coupon of {on.welder} is welded; its result is not entered yet.", on.entry)
    fault = f": {on.fault}" if on.fault else ""
    said = f"The coupon of {on.welder} for {', '.join(on.procedures)} failed{fault}."
    return me.outside(on.subject, said, on.entry, value=on.fault or "failed")
