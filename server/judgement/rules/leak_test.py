"""The result of a leak test of a gas line."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_line import LineCheckOccasion
from server.judgement.cautions import ARGON
from server.judgement.rule import Rule, rule


@rule(
    id="leak-test",
    asks="Was the gas line tight?",
    level="line check",
    severity=Severity.DECIDE,
    causes=("C3", "C11"),
    why="A leak that lets argon out lets air in as soon as the flow is low.",
    do="Mend the line, test it again, run a bead, and look at what was welded since the last good test.",
    cannot_tell="It tells of the moment it was made and of the stretch that was wetted.",
    caution=ARGON,
)
def leak_test(me: Rule, on: LineCheckOccasion) -> Verdict | tuple[()]:
    if on.check != "leak":
        return ()
    if on.result == "good":
        return me.within(on.subject, on.entry)
    if on.result == "waiting":
        return me.unknown(on.subject, f"The leak test of {on.thing} has no result yet.", on.entry)
    return me.outside(on.subject, f"Line {on.thing} was found leaking.", on.entry, value=on.thing)
