"""Whether an instrument was found right at its calibration."""

from server.facts.judged import Severity, Verdict
from server.facts.moment import show_moment
from server.facts.occasion_instrument import CalibrationOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="instrument-calibrated",
    asks="Was the instrument found right at its next calibration?",
    level="calibration",
    severity=Severity.STOP,
    limit_from="certificate",
    causes=("C5",),
    why="Every reading since the last good calibration leaned on it.",
    do="Take it off; open the set of what it read; look for a check in between that narrows it; apply the curve found.",
    cannot_tell="As found is as found: it does not say since when.",
)
def instrument_calibrated(me: Rule, on: CalibrationOccasion) -> Verdict:
    if on.passed:
        return me.within(on.subject, on.calibration)
    since = f"since {show_moment(on.last_good_ms)}" if on.last_good_ms is not None else "since ever"
    said = f"{on.instrument} was found wrong; what it read {since} is in doubt."
    return me.outside(on.subject, said, on.calibration, value=on.instrument)
