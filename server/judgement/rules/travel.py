"""How fast a pass went, from its seam and its arc time, against the procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.rule import Rule, rule


@rule(
    id="travel",
    asks="Was the travel speed within the limit?",
    level="pass",
    severity=Severity.DECIDE,
    limit="travel",
    limit_from="procedure",
    causes=("C13", "C14"),
    why="Too slow cooks the seam, too fast leaves it unfused and outruns the gas.",
    do="Check that the quarters named are the ones welded; if they are, show the quality lead.",
    cannot_tell=(
        "It is the seam's length over arc time: a pause without arc does not count, and a wrong quarter "
        "ticked looks like a wrong speed."
    ),
)
def travel(me: Rule, on: PassOccasion) -> Verdict:
    return against(me, on, me.limit)
