"""The limits of a revision that hold for one joint, run, side and zone."""

from server.facts.limit import Limit
from server.facts.procedure import Procedure


def limits_for(
    procedure: Procedure,
    name: str,
    *,
    joint_kind: str | None = None,
    run: str | None = None,
    side: str | None = None,
    zone: str | None = None,
    line: str | None = None,
    inside: str | None = None,
) -> list[Limit]:
    """Every limit of that name that holds there; what a limit leaves open, holds everywhere."""
    asked = ((joint_kind, "joint_kinds"), (run, "runs"))
    single = ((side, "side"), (zone, "zone"), (line, "line"))
    return [
        limit
        for limit in procedure.limits
        if limit.name == name
        and all(_among(value, getattr(limit, field)) for value, field in asked)
        and all(value is None or getattr(limit, field) in (None, value) for value, field in single)
        and _among(inside, limit.plan.where)
    ]


def limit_for(procedure: Procedure, name: str, **there: str | None) -> Limit | None:
    """The first limit of that name that holds there; none when the revision sets none."""
    found = limits_for(procedure, name, **there)
    return found[0] if found else None


def _among(value: str | None, listed: tuple[str, ...]) -> bool:
    return value is None or not listed or value in listed
