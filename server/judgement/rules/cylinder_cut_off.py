"""Whether a cylinder was taken off before it was too empty."""

from server.facts.judged import Severity, Verdict, Word
from server.facts.occasion_line import ChangeOccasion
from server.judgement.cautions import CYLINDER
from server.judgement.rule import Rule, rule
from server.statistics.conformity import conform


@rule(
    id="cylinder-cut-off",
    asks="Was the cylinder taken off above its cut-off pressure?",
    level="change",
    severity=Severity.NOTE,
    limit="cylinder_cut_off",
    limit_from="acceptance",
    causes=("C4", "C12"),
    why="The last gas of a cylinder carries the most water, and a line that runs empty sucks air.",
    do="Look at the colours of the last joints from it; change the next one earlier.",
    cannot_tell="It is the pressure when it came off, not when each joint was welded.",
    caution=CYLINDER,
)
def cylinder_cut_off(me: Rule, on: ChangeOccasion) -> Verdict:
    limit, pressure = on.accept.get(me.limit), on.off_pressure
    if limit is None or pressure is None:
        return me.not_asked()
    said = conform(pressure.value, limit.value, None, pressure.u if pressure.u is not None else 0.0)
    if said.word != "outside":
        return me.within(on.subject, on.entry, value=pressure.value)
    return me.outside(
        on.subject,
        f"Cylinder {on.off} came off {on.line} at {pressure.value:g} bar; it comes off at {limit.value:g} bar.",
        on.entry,
        value=pressure.value,
        unit=limit.unit,
        low=limit.value,
        uncertainty=pressure.u,
        proved=said.proved,
        source=limit.source,
    )._replace(word=Word.OUTSIDE)
