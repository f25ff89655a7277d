"""Steps that had to come first, held against what came first."""

from collections.abc import Sequence

from server.facts.judged import Verdict
from server.facts.occasion_joint import JointOccasion, NeedFact
from server.judgement.rule import Rule


def needed_first(me: Rule, on: JointOccasion, needs: Sequence[NeedFact]) -> Verdict:
    """Give one verdict over all of a joint's needs of one kind: the first that failed, or that cannot be proved."""
    if not needs:
        return me.not_asked()
    late = next((need for need in needs if need.before is False), None)
    if late is not None:
        when = "only after it" if late.first_at is not None else "never"
        said = f"{late.step} was done, and {late.first} {when}. {late.reason}".strip()
        return me.outside(on.subject, said, *_entries(late), value=late.first)
    open_ = next((need for need in needs if need.before is None), None)
    if open_ is not None:
        said = f"Order not provable: {open_.step} and {open_.first} lie closer than their clocks can tell."
        return me.unknown(on.subject, said, *_entries(open_), value=open_.first)
    return me.within(on.subject, *(entry for need in needs for entry in _entries(need)))


def _entries(need: NeedFact) -> tuple[str, ...]:
    return (need.step_entry, need.first_entry) if need.first_entry else (need.step_entry,)
