"""Whether everybody the repair procedure names had signed before the first arc of a repair."""

from server.facts.judged import Severity, Verdict
from server.facts.occasion_joint import JointOccasion
from server.judgement.rule import Rule, rule


@rule(
    id="repair-approved",
    asks="Had everybody signed who must, before this repair?",
    level="joint",
    severity=Severity.STOP,
    limit_from="procedure",
    causes=("C13",),
    why="The second time at one place is where a good weld is lost; two people look before it is tried.",
    do="No further arc on this joint. Quality lead and owner decide what becomes of the piece.",
    cannot_tell="It knows signatures and their times, not what was said at the bench.",
)
def repair_approved(me: Rule, on: JointOccasion) -> Verdict:
    if on.repair is None or on.procedure is None or not on.procedure.approvals:
        return me.not_asked()
    wanted = on.procedure.approvals[min(on.repair.number, len(on.procedure.approvals)) - 1]
    missing = [role for role in wanted if role not in on.repair.signed_roles]
    arcs = tuple(each.entry for each in on.passes)
    if not missing:
        return me.within(on.subject, *arcs, value=", ".join(on.repair.signed_by))
    return me.outside(
        on.subject,
        f"Repair {on.repair.number} at this place was begun without the signature of {' and '.join(missing)}.",
        *arcs,
        value=", ".join(on.repair.signed_by) or "nobody",
        allowed=tuple(wanted),
        source=on.procedure.called,
    )
