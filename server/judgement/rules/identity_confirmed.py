"""Whether everybody who logged on a frame was signed in by the record itself."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_frame import FrameOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="identity-confirmed",
    asks="Is it confirmed who made each entry?",
    level="frame",
    severity=Severity.NOTE,
    causes=("C20", "C25"),
    why="Signed in without the network, a name is what somebody tapped.",
    do="Ask the person to confirm the entries of that day.",
    cannot_tell="A confirmed sign-in is a PIN, not a face.",
)
def identity_confirmed(me: Rule, on: FrameOccasion) -> Verdict:
    if not on.unconfirmed:
        return me.within(on.subject)
    said = f"{len(on.unconfirmed)} entries were made under a name the record had not confirmed."
    return me.outside(on.subject, said, *on.unconfirmed)
