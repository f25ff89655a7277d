"""The mean current the machine counted over a pass, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.rule import Rule, rule


@rule(
    id="mean-current",
    asks="Was the mean current within the limit?",
    level="pass",
    severity=Severity.DECIDE,
    limit="mean_current",
    limit_from="procedure",
    causes=("C13", "C14"),
    why="Too little leaves the root unfused under a good-looking bead; too much cooks the tube.",
    do="Stop and show the quality lead; a low current with good gas is checked by section or coupon, not by eye.",
    cannot_tell="A mean hides a pulse set wrongly; the settings are asked about on their own.",
)
def mean_current(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
