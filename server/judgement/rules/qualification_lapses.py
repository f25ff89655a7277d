"""Whether a welder's qualification lapses soon."""

from collections.abc import Sequence
from datetime import date

from server.facts.judged import Severity, Verdict
from server.facts.occasion_people import WelderOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="qualification-lapses",
    asks="Is the welder's qualification good for a while yet?",
    level="welder",
    severity=Severity.NOTE,
    limit="lapse_warning",
    limit_from="acceptance",
    causes=("C20",),
    why="A confirmation signed in time is one line; after the last valid day it is a new test piece.",
    do="Confirm it from the logged welds of the period, before the day named.",
    cannot_tell="It counts whole calendar months as the register says; the shop's scheme may ask for more.",
)
def qualification_lapses(me: Rule, on: WelderOccasion) -> Verdict | Sequence[Verdict]:
    limit = on.accept.get(me.limit)
    if limit is None or not on.lapses:
        return me.not_asked()
    soon = [(name, last) for name, last in on.lapses if 0 <= last - on.today < limit.value]
    if not soon:
        return me.within(on.subject)
    return [
        me.outside(
            name,
            f"{name} of {on.welder} lapses after {date.fromordinal(last).isoformat()}, unless it is confirmed.",
            value=float(last - on.today),
            unit=limit.unit,
            low=limit.value,
            source=limit.source,
        )
        for name, last in soon
    ]
