"""Whether a joint was tacked with purge gas on."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_pass import TackOccasion
from server.judgement.cautions import ARGON
from server.judgement.rule import Rule, rule


@rule(
    id="tack-purge",
    asks="Was the joint tacked with purge gas on?",
    level="tack",
    severity=Severity.DECIDE,
    limit="tack_purge",
    limit_from="acceptance",
    causes=("C3", "C19"),
    why="A tack goes through the wall like a root, and its inside is as hot.",
    do="Look inside where it can be reached; cut the tack out where it cannot.",
    cannot_tell="It knows whether the tack names a purge, not what came out of it.",
    caution=ARGON,
)
def tack_purge(me: Rule, on: TackOccasion) -> Verdict:
    limit = on.accept.get(me.limit)
    if limit is None or limit.value < 1:
        return me.not_asked()
    if on.purged or on.removed:
        return me.within(on.subject, on.entry)
    said = "Tacked without a purge line named."
    return me.outside(on.subject, said, on.entry, source=limit.source)
