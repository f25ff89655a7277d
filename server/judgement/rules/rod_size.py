"""The diameter of the rod in a fill, by its sleeve's label, against the procedure."""

from server.facts.figure import Figure
from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import compared
from server.judgement.rule import Rule, rule


@rule(
    id="rod-size",
    asks="Was the rod of an allowed diameter?",
    level="pass",
    severity=Severity.DECIDE,
    limit="rod",
    limit_from="procedure",
    causes=("C13", "C14"),
    why="A thick rod chills a thin seam and hides a cold root; a thin one asks for more heat.",
    do="Change the rod; a fill already made is looked at as one with a doubtful root.",
    cannot_tell="It is the label's diameter; nobody measured the rod.",
)
def rod_size(me: Rule, on: PassOccasion) -> Verdict:
    limit, rod = on.limits.get(me.limit), on.rod
    if limit is None or rod is None or rod.rod_mm is None:
        return me.not_asked()
    return compared(me, on.subject, limit, Figure(rod.rod_mm, 0.0, "inherited", rod.sleeve, on.entry), on.entry)
