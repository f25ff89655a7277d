"""Whether a machine's counters told exactly the same for pass after pass."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_instrument import InstrumentOccasion
from server.facts.subject import day_subject
from server.judgement.rule import Rule, rule


@rule(
    id="identical-readings",
    asks="Did the counters differ from pass to pass, as they do?",
    level="instrument",
    severity=Severity.NOTE,
    limit="identical_run",
    limit_from="acceptance",
    causes=("C25",),
    why="No hand makes two passes alike to the tenth of a second; figures that repeat were carried over.",
    do="Ask how they came about. The figures are void; the welds are not accused.",
    cannot_tell="A counter that hangs looks like a figure copied.",
)
def identical_readings(me: Rule, on: InstrumentOccasion) -> Verdict:
    limit = on.accept.get(me.limit)
    if limit is None or on.run_day is None:
        return me.not_asked()
    if len(on.run) <= limit.value:
        return me.within(on.subject, value=float(len(on.run)))
    said = f"{on.instrument} told the same current, volts and seconds for {len(on.run)} passes in a row. Evidence void."
    subject = day_subject(on.instrument, on.run_day)
    length = float(len(on.run))
    return me.outside(subject, said, *on.run, value=length, unit=limit.unit, high=limit.value, source=limit.source)
