"""Whether one welder's arcs follow each other, as they must."""

from collections.abc import Sequence

from server.facts.judged import Severity, Verdict
from server.facts.occasion_people import WelderOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="one-arc-at-a-time",
    asks="Did this welder hold one torch at a time?",
    level="welder",
    severity=Severity.DECIDE,
    causes=("C20", "C25"),
    why="Two arcs at once under one name mean that somebody else welded one of them.",
    do="Ask who welded which; correct the entry.",
    cannot_tell="Times told wrong look like two arcs at once; their clocks' doubt is allowed for.",
)
def one_arc_at_a_time(me: Rule, on: WelderOccasion) -> Verdict | Sequence[Verdict]:
    if not on.overlaps:
        return me.within(on.subject)
    said = f"{on.welder} is logged with another arc at the same time."
    return [
        me.outside(subject, said, later, earlier, value=on.welder)
        for earlier, later, subject in on.overlaps
    ]
