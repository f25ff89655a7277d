"""Whether a meter stood still after a cross-check it failed."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_instrument import CheckOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="cross-check-acted-on",
    asks="Was the failed cross-check acted on?",
    level="check",
    severity=Severity.DECIDE,
    causes=("C5",),
    why="A check that fails and changes nothing is worse than none: it will be read out one day.",
    do="Take the meter off the bench, and say so in the entry.",
    cannot_tell="It knows what was logged and whether the meter was read again.",
)
def cross_check_acted_on(me: Rule, on: CheckOccasion) -> Verdict | tuple[()]:
    if on.check != "cross":
        return ()
    if on.result != "failed":
        return me.not_asked()
    if on.acted_on or (on.acted_on is None and not on.used_after):
        return me.within(on.subject, on.entry)
    used = f"; {len(on.used_after)} passes were read with it afterwards" if on.used_after else ""
    said = f"The failed cross-check of {on.instrument} was recorded and not acted on{used}."
    return me.outside(on.subject, said, on.entry, *on.used_after[:1], value=float(len(on.used_after)))
