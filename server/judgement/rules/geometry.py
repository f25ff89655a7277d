"""How far a frame is out of true, against its drawing."""

from collections.abc import Sequence

from server.facts.judged import Severity, Verdict, Word
from server.facts.occasion_frame import FrameOccasion, GeometryFact
from server.judgement.rule import Rule, rule
from server.statistics.conformity import conform


@rule(
    id="geometry",
    asks="Is the frame true within the limit of its drawing?",
    level="frame",
    severity=Severity.DECIDE,
    limit_from="design",
    causes=("C17", "C23"),
    why="A frame out of true rides badly, and one pulled true by force carries that force in its seams.",
    do="Do not bend it into place; find the seam that pulled, and decide.",
    cannot_tell="It is the table's dial at the points measured.",
)
def geometry(me: Rule, on: FrameOccasion) -> Verdict | Sequence[Verdict]:
    return [_check(me, on, each) for each in on.geometry] or me.not_asked()


def _check(me: Rule, on: FrameOccasion, made: GeometryFact) -> Verdict:
    subject = f"{on.subject}/{made.check}#1"
    if made.limit_mm is None:
        return me.not_asked(subject)
    if made.deviation is None:
        if made.result == "good":
            return me.within(subject, made.entry)
        word = me.outside if made.result == "failed" else me.unknown
        return word(subject, f"Check {made.check} was logged as {made.result}, without a figure.", made.entry)
    value = abs(made.deviation.value)
    said = conform(value, None, made.limit_mm, made.deviation.u)
    if said.word == "within":
        return me.within(subject, made.entry, value=value)
    told = f"Check {made.check}: {value:g} mm out; at most {made.limit_mm:g} mm is allowed."
    answer = me.outside(
        subject,
        told,
        made.entry,
        value=value,
        unit="mm",
        high=made.limit_mm,
        uncertainty=made.deviation.u,
        proved=said.proved,
        source=made.source,
    )
    return answer if said.word == "outside" else answer._replace(word=Word(said.word), proved=True)
