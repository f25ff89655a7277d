"""What differs between two revisions, in the order of the work: the paper, before the arc, at the arc, after."""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from server.facts.limit import Limit
from server.facts.limit_kinds import LIMIT_KINDS, MOMENTS
from server.facts.procedure import Procedure, SupportingRecord
from server.procedures.wording import limit_called, plan_words, span_words

PAPER = "on the paper"
_ORDER = (PAPER, *MOMENTS)
_PAPER_FIELDS = {
    "title": "title",
    "joint_kind": "kind of joint",
    "stage": "production or repair",
    "repairs": "kinds of joint it repairs",
    "base_metals": "base metals",
    "thickness_mm": "wall [mm]",
    "diameter_mm": "outer diameter [mm]",
    "filler_classes": "filler classes",
    "variables": "essential variables",
    "technique": "technique",
    "cleaning": "cleaning",
    "approvals": "who signs a repair",
}


class Difference(NamedTuple):
    """One thing that differs: when in the work it matters, what it is, how it was and how it is."""

    moment: str
    what: Literal["added", "dropped", "changed"]
    about: str
    old: str
    new: str


def compare(old: Procedure, new: Procedure) -> list[Difference]:
    """Every difference between two revisions, in the order of the work."""
    found = [*_paper(old, new), *_limits(old, new), *_cautions(old, new)]
    return sorted(found, key=lambda difference: _ORDER.index(difference.moment))


def _paper(old: Procedure, new: Procedure) -> Iterator[Difference]:
    for field, words in _PAPER_FIELDS.items():
        was, now = _said(getattr(old, field)), _said(getattr(new, field))
        if was != now:
            yield _difference(PAPER, words, was, now)
    yield from _records(old, new)


def _records(old: Procedure, new: Procedure) -> Iterator[Difference]:
    """Each record apart, and of one in both what differs: a range made wider must not hide behind its name."""
    before, after = ({each.id: _record_said(each) for each in side.supports} for side in (old, new))
    for name in {**before, **after}:
        was, now = before.get(name, {}), after.get(name, {})
        if was != now:
            told = [part for part in {**was, **now} if was.get(part) != now.get(part)]
            said = (" · ".join(f"{part} {side[part]}" for part in told if part in side) for side in (was, now))
            yield _difference(PAPER, f"qualification record {name}", *said)


def _record_said(record: SupportingRecord) -> dict[str, str]:
    told = {"of": str(record.dated), "by": record.standard, "tables": _said(record.changes_by)}
    spans = {"wall [mm]": record.thickness_mm, "outer diameter [mm]": record.diameter_mm}
    told |= {name: _span_said(*span) for name, span in spans.items() if span}
    told |= {f"{_called(name)} qualified": _span_said(*span) for name, span in record.ranges.items()}
    told |= {name: _said(how) for name, how in record.variables.items()}
    return {name: said for name, said in told.items() if said}


def _called(name: str) -> str:
    kind = LIMIT_KINDS.get(name)
    return f"{kind.words} [{kind.unit}]" if kind else name


def _span_said(low: float | None, high: float | None) -> str:
    if low is not None and high is not None:
        return f"{low:g} to {high:g}"
    return f"at least {low:g}" if low is not None else f"at most {high:g}" if high is not None else "any"


def _limits(old: Procedure, new: Procedure) -> Iterator[Difference]:
    was, now = _by_place(old), _by_place(new)
    order = list(LIMIT_KINDS)
    for place in sorted({**was, **now}, key=lambda place: order.index(place[0])):
        before, after = (" / ".join(map(_limit_said, side.get(place, []))) for side in (was, now))
        if before != after:
            limit = (now.get(place) or was[place])[0]
            yield _difference(LIMIT_KINDS[limit.name].moment, limit_called(limit), before, after)


def _by_place(procedure: Procedure) -> dict[tuple[str, ...], list[Limit]]:
    found: dict[tuple[str, ...], list[Limit]] = {}
    for limit in procedure.limits:
        place = (limit.name, limit.line or "", limit.side or "", limit.zone or "", *limit.runs, *limit.joint_kinds)
        found.setdefault(place, []).append(limit)
    return found


def _cautions(old: Procedure, new: Procedure) -> Iterator[Difference]:
    for caution in old.cautions:
        if caution not in new.cautions:
            yield _difference(caution.where, f"caution ({caution.authority})", caution.words, "")
    for caution in new.cautions:
        if caution not in old.cautions:
            yield _difference(caution.where, f"caution ({caution.authority})", "", caution.words)


def _limit_said(limit: Limit) -> str:
    return f"{span_words(limit)}; {plan_words(limit.plan)}; {limit.source}"


def _said(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, dict):
        return "; ".join(f"{name} {_said(inner)}" for name, inner in sorted(value.items()))
    if isinstance(value, tuple):
        return " · ".join(_said(inner) or "any" for inner in value)
    return str(value)


def _difference(moment: str, about: str, was: str, now: str) -> Difference:
    what: Literal["added", "dropped", "changed"] = "changed" if was and now else "dropped" if was else "added"
    return Difference(moment, what, about, was, now)
