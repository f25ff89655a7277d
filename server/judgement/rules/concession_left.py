"""Whether a concession still covers a use: frames named, count, expiry."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_paper import ConcessionOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="concession-left",
    asks="Does the concession still cover this use?",
    level="concession",
    severity=Severity.STOP,
    causes=(),
    why="Leave was given for so many, for these, until then; beyond that nobody has given leave.",
    do="Refuse the use; make it anew, or ask both roles for a new concession.",
    cannot_tell="It counts the uses signed in this record.",
)
def concession_left(me: Rule, on: ConcessionOccasion) -> Verdict:
    reasons = [words for wrong, words in _reasons(on) if wrong]
    if not reasons:
        return me.within(on.subject, on.concession, on.decision, value=float(on.number))
    said = f"{on.concession} does not cover this use: {', '.join(reasons)}."
    return me.outside(on.subject, said, on.concession, on.decision, value=float(on.number), high=on.count)


def _reasons(on: ConcessionOccasion) -> list[tuple[bool, str]]:
    if not on.known:
        return [(True, "nobody has given it")]
    return [
        (not on.frame_named, f"frame {on.frame} is not named in it"),
        (not on.joint_named, "the joint is not named in it"),
        (on.count is not None and on.number > on.count, f"this is use {on.number} of {on.count}"),
        (on.expired, "it has expired"),
    ]
