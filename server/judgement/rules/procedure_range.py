"""Whether a joint's thickness and diameter lie in the range of its procedure."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="procedure-range",
    asks="Does the procedure cover this thickness and diameter?",
    level="joint",
    severity=Severity.DECIDE,
    limit_from="procedure",
    causes=("C21",),
    why="Outside its range a procedure is a guess.",
    do="Take the drawing to the quality lead before the next one is welded.",
    cannot_tell="It is the drawing's thickness and diameter, not what was cut.",
)
def procedure_range(me: Rule, on: JointOccasion) -> Verdict:
    if on.procedure is None or not on.passes:
        return me.not_asked()
    entries = [each.entry for each in on.passes]
    spans = (
        ("thickness", on.joint.thickness_mm, on.procedure.thickness_mm),
        ("diameter", on.joint.diameter_mm, on.procedure.diameter_mm),
    )
    known = False
    for words, value, span in spans:
        if value is None or span is None:
            continue
        known, (low, high) = True, span
        if value < low or (high is not None and value > high):
            covers = f"{low:g} to {high:g} mm" if high is not None else f"{low:g} mm and over"
            said = f"The {words} is {value:g} mm; {on.procedure.called} covers {covers}."
            source = on.procedure.called
            return me.outside(on.subject, said, *entries, value=value, unit="mm", low=low, high=high, source=source)
    return me.within(on.subject, *entries) if known else me.not_asked()
