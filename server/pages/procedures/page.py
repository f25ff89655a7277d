"""What the procedure screens show: a list of what is in force, one revision in the order of the work, a comparison."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from server.facts.limit import Limit
from server.facts.limit_kinds import LIMIT_KINDS, MOMENTS
from server.facts.procedure import Caution, Procedure

PLAN_WORDS = {
    "every pass": "every pass",
    "every joint": "every joint",
    "every fill": "every fill",
    "every set-up": "every purge set-up",
    "first of shift": "first of the shift and after a change",
    "one per stage": "one joint per frame and stage",
    "machine only": "counted by the machine, else not asked",
    "never": "not asked",
}


@dataclass(frozen=True, slots=True)
class Revision:
    """One revision on the list, with whether it is in force today."""

    procedure: Procedure
    in_force: bool


@dataclass(frozen=True, slots=True)
class ProcedureList:
    """Every procedure with its revisions, newest first."""

    groups: tuple[tuple[str, tuple[Revision, ...]], ...]
    today: date


@dataclass(frozen=True, slots=True)
class LimitLine:
    """One limit as a line on the sheet: what, how much, when it is measured, from where."""

    words: str
    limit: Limit
    asked: str


@dataclass(frozen=True, slots=True)
class Moment:
    """One moment of the work with the limits and the cautions that belong to it."""

    title: str
    limits: tuple[LimitLine, ...]
    cautions: tuple[Caution, ...]


@dataclass(frozen=True, slots=True)
class ProcedureSheet:
    """One revision in the order of the work."""

    procedure: Procedure
    in_force: bool
    moments: tuple[Moment, ...]
    other_revisions: tuple[Procedure, ...]


def procedure_sheet(procedure: Procedure, in_force: bool, others: Iterable[Procedure]) -> ProcedureSheet:
    """Lay one revision out before the arc, at the arc and after it."""
    moments = tuple(
        Moment(
            title=moment,
            limits=tuple(_line(limit) for limit in procedure.limits if LIMIT_KINDS[limit.name].moment == moment),
            cautions=tuple(caution for caution in procedure.cautions if caution.where == moment),
        )
        for moment in MOMENTS
    )
    return ProcedureSheet(procedure, in_force, moments, tuple(others))


def _line(limit: Limit) -> LimitLine:
    parts = [LIMIT_KINDS[limit.name].words]
    parts += [part for part in (limit.side, limit.zone, limit.line and f"{limit.line} gas") if part]
    if limit.runs:
        parts.append("(" + ", ".join(limit.runs) + ")")
    return LimitLine(" ".join(parts), limit, _asked(limit))


def _asked(limit: Limit) -> str:
    if limit.plan.when == "one in n":
        return f"one joint in {limit.plan.n}"
    return PLAN_WORDS[limit.plan.when]
