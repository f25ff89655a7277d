"""Whether a cylinder was known to be on each gas line a pass used."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import PassOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="cylinder-known",
    asks="Which cylinder was on each gas line?",
    level="pass",
    severity=Severity.NOTE,
    causes=("C1", "C2"),
    why="When a cylinder turns out bad, only this tells which joints it went into.",
    do="Log the cylinder that is on the line, with the time it was connected.",
    cannot_tell="It is the last change logged; a change nobody logged does not show.",
)
def cylinder_known(me: Rule, on: PassOccasion) -> Verdict:
    lines = [gas for gas in (on.torch, on.purge) if gas is not None]
    for gas in lines:
        if gas.cylinder is None:
            return me.unknown(on.subject, f"Nobody logged a cylinder on line {gas.line} before this pass.", on.entry)
    return me.within(on.subject, on.entry) if lines else me.not_asked()
