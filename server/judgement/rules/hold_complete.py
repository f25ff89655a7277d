"""Whether a nonconformity holds everything its failed check still reaches."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_paper import NonconformityOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="hold-complete",
    asks="Does the nonconformity hold everything the failed check reaches?",
    level="nonconformity",
    severity=Severity.DECIDE,
    causes=("C1", "C2", "C5", "C14"),
    why="A hold cut by a date instead of a fact lets half of the trouble go.",
    do="Hold what was missed, or sign the fact that lets it out.",
    cannot_tell="It knows joints logged in this record; work elsewhere with the same gas or meter does not show.",
)
def hold_complete(me: Rule, on: NonconformityOccasion) -> Verdict:
    if not on.missed:
        return me.within(on.subject, on.check)
    few = ", ".join(on.missed[:5])
    said = f"{on.nonconformity} misses {len(on.missed)} of {len(on.reached)} joints the check still reaches, as {few}."
    return me.outside(on.subject, said, on.check, *on.missed, value=float(len(on.missed)))
