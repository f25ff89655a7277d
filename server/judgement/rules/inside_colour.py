"""The colour inside, against the procedure, where the plan asks for a look and the place can be reached."""

from server.facts.judged import Severity, Verdict
from server.facts.limit import Limit
from server.facts.occasion_joint import JointOccasion
from server.judgement.cautions import ARGON
from server.judgement.colours import graded, limit_for, missed, no_access, standing_looks, worst_beyond
from server.judgement.rule import Rule, rule


@rule(
    id="inside-colour",
    asks="Is the colour inside within the limit?",
    level="joint",
    severity=Severity.DECIDE,
    limit="colour",
    limit_from="procedure",
    causes=("C2", "C3", "C4", "C16"),
    why="The root sees only the purge gas, and its colour is the one witness of it that nobody can talk away.",
    do="Hold the joint; look at the others of this purge set-up; read the oxygen and run a purge bead.",
    cannot_tell="What cannot be reached stays unseen; no access is written down, it is not a pass.",
    caution=ARGON,
)
def inside_colour(me: Rule, on: JointOccasion) -> Verdict:
    looks = standing_looks(on, "inside")
    beyond = worst_beyond(me, on, looks)
    if beyond is not None:
        return beyond
    limit = limit_for(on, "inside", "bead")
    if limit is None or not on.passes:
        return me.not_asked()
    if any(look.after_last_pass for look in looks):
        return graded(me, on, looks)
    if no_access(on) is not None or not _due(on, limit):
        return me.not_asked()
    return missed(me, on, limit, "inside")


def _due(on: JointOccasion, limit: Limit) -> bool:
    if limit.plan.when == "one per stage":
        return on.looks_due and on.last_of_stage and not on.stage_looked
    return limit.plan.when in ("every joint", "every pass") and on.looks_due
