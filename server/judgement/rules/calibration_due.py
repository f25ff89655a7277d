"""Whether an instrument was used after its calibration had run out."""

from datetime import date

from server.facts.judged import Severity, Verdict
from server.facts.occasion_instrument import InstrumentOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="calibration-due",
    asks="Was the instrument within its calibration when it was used?",
    level="instrument",
    severity=Severity.DECIDE,
    limit_from="register",
    causes=("C5",),
    why="Past its day a meter may be right, but nobody has shown it.",
    do="Have it calibrated; the result says what the readings since the day are worth.",
    cannot_tell="It knows days, not drift.",
)
def calibration_due(me: Rule, on: InstrumentOccasion) -> Verdict:
    if on.due_day is None:
        return me.not_asked()
    if not on.used_after_due:
        return me.within(on.subject)
    due = date.fromordinal(on.due_day).isoformat()
    said = f"{on.instrument} was used for {len(on.used_after_due)} passes after its last valid day, {due}."
    return me.outside(on.subject, said, *on.used_after_due[:1], value=due)
