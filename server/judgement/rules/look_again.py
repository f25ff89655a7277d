"""Whether something came in after a release was signed that would have been a finding then."""

from server.facts.judged import Severity, Verdict, Word
from server.facts.occasion_frame import SignedOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="look-again",
    asks="Has something arrived that the signer of this decision had not seen?",
    level="signed",
    severity=Severity.DECIDE,
    causes=("C16", "C25"),
    why="A signature covers what its signer saw; facts that came in later are not under it.",
    do="Whoever signed reads what came in and signs again, or takes the release back.",
    cannot_tell="Late arrivals that change no verdict are not shown here; they stand in the frame's history.",
)
def look_again(me: Rule, on: SignedOccasion) -> Verdict:
    new = [each for each in on.verdicts if each.word in (Word.OUTSIDE, Word.UNKNOWN) and on.late & set(each.rests_on)]
    if not new:
        return me.within(on.subject, on.permission)
    questions = ", ".join(dict.fromkeys(f"{each.question} on {each.subject}" for each in new))
    rests_on = sorted({entry for each in new for entry in each.rests_on if entry in on.late})
    return me.outside(on.subject, f"Came in after the release was signed: {questions}.", on.permission, *rests_on)
