"""Entries made long after what they tell."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_frame import FrameOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="late-entry",
    asks="Was everything entered soon after it happened?",
    level="frame",
    severity=Severity.NOTE,
    limit="late_entry",
    limit_from="acceptance",
    causes=("C25",),
    why="Memory rounds; what is entered at the end of the shift is a recollection.",
    do="Nothing, unless one of these entries carries a decision.",
    cannot_tell="It compares the time told with the time tapped; a silent network makes nothing late.",
)
def late_entry(me: Rule, on: FrameOccasion) -> Verdict:
    limit = on.accept.get(me.limit)
    if limit is None:
        return me.not_asked()
    late = [(entry, minutes) for entry, minutes in on.late_entries if minutes > limit.value]
    if not late:
        return me.within(on.subject)
    longest = max(minutes for _, minutes in late)
    said = f"{len(late)} entries were made more than {limit.value:g} min afterwards, the latest {longest:.0f} min."
    return me.outside(
        on.subject,
        said,
        *(entry for entry, _ in late),
        value=longest,
        unit=limit.unit,
        high=limit.value,
        source=limit.source,
    )
