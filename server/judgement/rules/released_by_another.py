"""Whether a seam was released by somebody other than the one who welded it."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="released-by-another",
    asks="Was the seam released by somebody other than its welder?",
    level="joint",
    severity=Severity.DECIDE,
    causes=("C16",),
    why="Nobody sees their own oversight.",
    do="Somebody else looks and releases, as long as it can be seen.",
    cannot_tell="It knows who was signed in.",
)
def released_by_another(me: Rule, on: JointOccasion) -> Verdict:
    if not on.releases:
        return me.not_asked()
    own = [each for each in on.releases if each.by in on.welders]
    if not own:
        return me.within(on.subject, *(each.entry for each in on.releases))
    said = f"{own[0].by} released a seam of their own."
    return me.outside(on.subject, said, *(each.entry for each in own), value=own[0].by)
