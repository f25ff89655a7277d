"""How far two meters were apart on one gas, against what the shop accepts."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_instrument import CheckOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="cross-check",
    asks="Did the two meters agree?",
    level="check",
    severity=Severity.DECIDE,
    limit="cross_check",
    limit_from="acceptance",
    causes=("C5",),
    why="One of two meters that disagree is wrong, and nobody knows which.",
    do="Take both to certified gas before the next arc; use neither on its own word.",
    cannot_tell="Two meters that agree may both be wrong.",
)
def cross_check(me: Rule, on: CheckOccasion) -> Verdict | tuple[()]:
    if on.check != "cross":
        return ()
    limit = on.accept.get(me.limit)
    if limit is None:
        return me.not_asked()
    if on.difference is None:
        return me.unknown(on.subject, f"The cross-check of {on.instrument} holds no two readings.", on.entry)
    # The tolerance was set with both meters' doubts in it, so the difference is compared as it stands.
    if on.difference <= limit.value:
        return me.within(on.subject, on.entry, value=on.difference)
    return me.outside(
        on.subject,
        f"{on.instrument} and {on.against} were {on.difference:g} {on.unit} apart; {limit.value:g} is accepted.",
        on.entry,
        value=on.difference,
        unit=limit.unit,
        high=limit.value,
        source=limit.source,
    )
