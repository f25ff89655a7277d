"""Whether a meter read less oxygen than the gas holds by its own certificate."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_instrument import InstrumentOccasion
from server.facts.subject import day_subject
from server.judgement.rule import Rule, rule
from server.statistics.conformity import Conformity, conform


@rule(
    id="reading-possible",
    asks="Can this reading be true at all?",
    level="instrument",
    severity=Severity.DECIDE,
    limit_from="certificate",
    causes=("C5",),
    why="A purge cannot be cleaner than the gas it is made of; a meter that says so is reading itself.",
    do="Check it in air and against a second meter before the next arc.",
    cannot_tell="It finds a meter that reads low; one that reads high hides here.",
)
def reading_possible(me: Rule, on: InstrumentOccasion) -> Verdict:
    for each in on.impossible:
        if each.u is not None and conform(each.value, each.certified, None, each.u) is Conformity.OUTSIDE:
            said = (
                f"{on.instrument} read {each.value:g} ppm in gas certified to hold {each.certified:g} ppm, "
                f"the first of {len(on.impossible)} such readings."
            )
            subject = day_subject(on.instrument, each.day)
            return me.outside(subject, said, each.entry, value=each.value, unit="ppm", low=each.certified)
    return me.within(on.subject)
