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
        said = f"{_was(late.step)}, and {_was(late.first, late.first_at is not None)}. {_sentence(late.reason)}".strip()
        return me.outside(on.subject, said, *_entries(late), value=late.first)
    open_ = next((need for need in needs if need.before is None), None)
    if open_ is not None:
        both = f"{_named(open_.step)} and {_named(open_.first)}"
        said = f"Order not provable: {both} lie closer than their clocks can tell."
        return me.unknown(on.subject, said, *_entries(open_), value=open_.first)
    return me.within(on.subject, *(entry for need in needs for entry in _entries(need)))


def _named(step: str) -> str:
    joint, _, verb = step.partition(":")
    return f"{joint} {verb}" if verb else f"geometry check {joint}"


def _was(step: str, too_late: bool | None = None) -> str:
    """Say `S3 was welded`; of what had to come first, `S2 was finished only after it` or `S2 was never finished`."""
    joint, _, verb = step.partition(":")
    what, done = (joint, verb) if verb else (_named(step), "made")
    if too_late is None:
        return f"{what} was {done}"
    return f"{what} was {done} only after it" if too_late else f"{what} was never {done}"


def _sentence(reason: str) -> str:
    return f"{reason[:1].upper()}{reason[1:].rstrip('.')}." if reason else ""


def _entries(need: NeedFact) -> tuple[str, ...]:
    return (need.step_entry, need.first_entry) if need.first_entry else (need.step_entry,)
