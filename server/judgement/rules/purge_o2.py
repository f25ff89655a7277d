"""Purge oxygen at the start of the arc, against the procedure; a meter found wrong is read by its as-found curve."""

from server.facts.judged import Severity, Verdict, Word
from server.facts.occasion_pass import PassOccasion
from server.judgement.against import against
from server.judgement.cautions import ARGON
from server.judgement.rule import Rule, rule


@rule(
    id="purge-o2",
    asks="Was the purge oxygen within the limit at arc start?",
    level="pass",
    severity=Severity.DECIDE,
    limit="oxygen",
    limit_from="procedure",
    causes=("C2", "C3", "C5"),
    why="Oxygen the root takes up while hot stays in it for good and makes it brittle.",
    do="Do not strike: purge on, and look for a leak, a hose, a cylinder. A joint already welded is looked at inside.",
    cannot_tell="It is one reading before the arc, where the probe was; what comes in during the pass is not seen.",
    caution=ARGON,
)
def purge_o2(me: Rule, on: PassOccasion) -> Verdict:
    if on.curve is None:
        return against(me, on, me.limit)
    # Found only afterwards, when the meter was: nobody stood by to look at the root.
    said = against(me, on, me.limit, Severity.STOP)
    if said.word is Word.WITHIN:
        return said
    return said._replace(message=f"Put right by the as-found curve of {on.curve}: {said.message}")
