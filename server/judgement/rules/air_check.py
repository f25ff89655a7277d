"""The result of an analyser's check in air."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_instrument import CheckOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="air-check",
    asks="Did the analyser read air as air?",
    level="check",
    severity=Severity.DECIDE,
    causes=("C5",),
    why="A meter that is wrong in air is wrong.",
    do="Take another analyser; have this one seen to.",
    cannot_tell="A meter right in air may be wrong near zero, where it is used.",
)
def air_check(me: Rule, on: CheckOccasion) -> Verdict | tuple[()]:
    if on.check != "air":
        return ()
    if on.result == "good":
        return me.within(on.subject, on.entry)
    if on.result == "waiting":
        return me.unknown(on.subject, f"The air check of {on.instrument} has no result yet.", on.entry)
    return me.outside(on.subject, f"{on.instrument} did not read air as air.", on.entry, value=on.instrument)
