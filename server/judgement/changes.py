"""Beads that were due at a cylinder change."""

from server.facts.judged import Verdict
from server.facts.occasion_line import ChangeOccasion
from server.judgement.rule import Rule


def bead_at_change(me: Rule, on: ChangeOccasion) -> Verdict:
    """Give the verdict on one change: as many beads as the acceptance file asks, that day or before the next use."""
    limit = on.accept.get(me.limit)
    if limit is None or on.on is None:
        return me.not_asked()
    if len(on.beads) >= limit.value:
        return me.within(on.subject, on.entry, *on.beads)
    if not on.used and not on.closed:
        return me.not_asked()
    return me.outside(
        on.subject,
        f"Cylinder {on.on} came onto {on.line} and no bead was run at the change.",
        on.entry,
        value=float(len(on.beads)),
        unit=limit.unit,
        low=limit.value,
        source=limit.source,
    )
