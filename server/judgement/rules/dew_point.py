"""The dew point read on a gas line, against the shop's limit."""

from server.facts.judged import Severity, Verdict, Word
from server.facts.occasion_line import LineCheckOccasion
from server.judgement.rule import Rule, rule
from server.statistics.conformity import conform


@rule(
    id="dew-point",
    asks="Was the gas dry enough?",
    level="line check",
    severity=Severity.DECIDE,
    limit="gas_dew_point",
    limit_from="acceptance",
    causes=("C11", "C12", "C26"),
    why="Water splits in the arc: the oxygen makes the seam brittle at once, the hydrogen later.",
    do="Change hose or cylinder, flush, read again; look for late cracks in what was welded on it.",
    cannot_tell="It is read at the line; a wet cup or glove adds its own.",
)
def dew_point(me: Rule, on: LineCheckOccasion) -> Verdict | tuple[()]:
    if on.check != "dew point":
        return ()
    limit = on.accept.get(me.limit)
    if limit is None:
        return me.not_asked()
    if on.dew_point is None:
        return me.unknown(on.subject, f"The dew point check of {on.thing} holds no reading.", on.entry)
    said = conform(on.dew_point.value, None, limit.value, on.dew_point.u)
    if said.word == "within":
        return me.within(on.subject, on.entry, value=on.dew_point.value)
    told = f"Dew point {on.dew_point.value:g} °C on {on.thing}; at most {limit.value:g} °C is allowed."
    answer = me.outside(
        on.subject,
        told,
        on.entry,
        value=on.dew_point.value,
        unit=limit.unit,
        high=limit.value,
        uncertainty=on.dew_point.u,
        proved=said.proved or said.word != "outside",
        source=limit.source,
    )
    return answer._replace(word=Word(said.word))
