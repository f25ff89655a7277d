"""The heat a pass put into each millimetre, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.cautions import HOT
from server.judgement.rule import Rule, rule


@rule(
    id="heat-input",
    asks="Was the heat input within the limit?",
    level="pass",
    severity=Severity.DECIDE,
    limit="heat_input",
    limit_from="procedure",
    causes=("C13",),
    why="Too much heat widens the zone that loses strength and stays hot longer than the gas covers it.",
    do="Let it cool, look at the colour on both sides, and show the quality lead before the next pass.",
    cannot_tell=(
        "From mean amps and mean volts of a pulsed arc it reads 5 to 23 % low; a machine trace mends that. It "
        "knows the mean over the quarters named, not where the torch lingered."
    ),
    caution=HOT,
)
def heat_input(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
