"""A coupon recent enough behind each day of a welder's work."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import DueOccasion
from server.judgement.dues import made_when_due
from server.judgement.rule import Rule, rule


@rule(
    id="coupon-due",
    asks="Did a coupon stand behind the welder's work?",
    level="due",
    severity=Severity.DECIDE,
    limit="coupon_every",
    limit_from="acceptance",
    causes=("C14", "C20"),
    why="A coupon bends what no eye can see: the root of a hand on that day.",
    do="Weld and bend one now; decide about the days since the last.",
    cannot_tell="It speaks for the hand, not for a joint.",
)
def coupon_due(me: Rule, on: DueOccasion) -> Verdict | tuple[()]:
    return made_when_due(me, on, "no coupon stood behind it on that day")
