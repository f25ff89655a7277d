"""Whether a tablet's clock was right, from its sendings and its steady counter."""

from server.facts.judged import Severity, Verdict
from server.facts.moment import show_moment
from server.facts.occasion_tablet import TabletOccasion
from server.judgement.rule import Rule, rule

_MS_PER_S = 1000.0


@rule(
    id="clock",
    asks="Was the tablet's clock right?",
    level="tablet",
    severity=Severity.NOTE,
    limit="clock_offset",
    limit_from="acceptance",
    causes=("C17",),
    why="Every order of things across tablets rests on their clocks; times told by a wrong one are put right here.",
    do="Nothing: the times are corrected and the raw ones kept. Set the tablet to automatic time.",
    cannot_tell="A clock that was wrong while the tablet never spoke to us stays believed, with its doubt.",
)
def clock(me: Rule, on: TabletOccasion) -> Verdict:
    limit, stretch = on.accept.get(me.limit), on.segment
    if limit is None:
        return me.not_asked()
    offset_s = stretch.offset_ms / _MS_PER_S
    if abs(offset_s) <= limit.value:
        return me.within(on.subject, value=offset_s)
    way = {True: "slow", False: "fast"}[offset_s < 0]
    late = f"; {stretch.after_mending} were sent only after it had been put right" if stretch.after_mending else ""
    said = (
        f"The clock of {on.device} was {abs(offset_s):.0f} s {way} until {show_moment(stretch.until_ms)}. "
        f"{len(stretch.entries)} entries are shown in corrected time{late}."
    )
    return me.outside(on.subject, said, value=offset_s, unit=limit.unit, high=limit.value, source=limit.source)
