"""A limit and its measuring plan in the words of the shop, in the unit the shop wrote."""

from server.facts.limit import Limit, MeasuringPlan
from server.facts.limit_kinds import LIMIT_KINDS


def limit_called(limit: Limit) -> str:
    """What the limit is about, with its line, side, zone and where it holds."""
    places = (limit.line and f"{limit.line} line", limit.side, limit.zone, *limit.runs, *limit.joint_kinds)
    return ", ".join([LIMIT_KINDS[limit.name].words, *(place for place in places if place)])


def span_words(limit: Limit) -> str:
    """The range or what is allowed, as the shop wrote it."""
    if limit.allowed:
        return f"{' or '.join(limit.allowed)} {limit.unit}".strip()
    unit = limit.own_unit or limit.unit
    low = limit.low if limit.own_low is None else limit.own_low
    high = limit.high if limit.own_high is None else limit.own_high
    if low is not None and high is not None:
        return f"{low:g} to {_with_unit(high, unit)}"
    if low is not None:
        return f"at least {_with_unit(low, unit)}"
    return f"at most {_with_unit(high or 0.0, unit)}"


def _with_unit(value: float, unit: str) -> str:
    return {"grade": f"grade {value:g}", "#": f"#{value:g}"}.get(unit, f"{value:g} {unit}")


def plan_words(plan: MeasuringPlan) -> str:
    """When a reading is wanted and how it is known."""
    when = {"never": "not asked", "one in n": f"one joint in {plan.n}", "machine only": "from the machine only"}
    parts = [when.get(plan.when, plan.when)]
    parts += ["not on tacks"] if plan.not_tacks else []
    parts += [f"inside view {' or '.join(plan.where)}"] if plan.where else []
    parts += [plan.how] if plan.how else []
    return ", ".join([*parts, *(["with picture"] if plan.picture else [])])
