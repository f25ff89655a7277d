"""Whether a seam was hidden while a result it depends on had been found but not yet entered."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="covered-while-waiting",
    asks="Was the seam hidden while a result it depends on was waiting to be entered?",
    level="joint",
    severity=Severity.STOP,
    causes=("C14", "C16"),
    why="The one who tacked could not know; the one who knew had not said it yet.",
    do="Take the covering tube off again before it is welded, or see the seam from inside.",
    cannot_tell="It goes by the time of the test and the time its result was tapped in.",
)
def covered_while_waiting(me: Rule, on: JointOccasion) -> Verdict:
    if not on.holds or not on.hidden_later:
        return me.not_asked()
    waited = [hold for hold in on.holds if hold.covered_while_waiting is not None]
    if not waited:
        return me.within(on.subject, *(hold.check for hold in on.holds))
    hold = waited[0]
    said = f"It was covered while the failed {hold.kind} of {hold.subject} lay {hold.waited_min:.0f} min without entry."
    return me.outside(
        on.subject, said, hold.check, hold.covered_while_waiting or "", value=hold.waited_min, unit="min"
    )
