"""What the procedure screens show: a list of what is in force, one revision in the order of the work, a comparison."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import date
from itertools import groupby

from server.facts.change_table import ChangeTable
from server.facts.limit import Limit
from server.facts.limit_kinds import LIMIT_KINDS, MOMENTS
from server.facts.procedure import Caution, Procedure
from server.procedures.compare import Difference, compare
from server.procedures.new_record import RecordAsked, records_asked, tables_named
from server.procedures.wording import limit_called, plan_words, span_words
from server.work.would_have_caught import Caught


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
    allowed: str
    limit: Limit
    asked: str


@dataclass(frozen=True, slots=True)
class Moment:
    """One moment of the work with the limits and the cautions that belong to it."""

    title: str
    limits: tuple[LimitLine, ...]
    cautions: tuple[Caution, ...]


@dataclass(frozen=True, slots=True)
class Released:
    """Who signed a revision's release on a screen, in which role, and when."""

    name: str
    role: str
    at_ms: int


@dataclass(frozen=True, slots=True)
class ProcedureSheet:
    """One revision in the order of the work; `released` tells people of the shop who signed it, where somebody did."""

    procedure: Procedure
    in_force: bool
    moments: tuple[Moment, ...]
    other_revisions: tuple[Procedure, ...]
    released: Released | None


def procedure_sheet(
    procedure: Procedure, in_force: bool, others: Iterable[Procedure], released: Released | None
) -> ProcedureSheet:
    """Lay one revision out before the arc, at the arc and after it."""
    moments = tuple(
        Moment(
            title=moment,
            limits=tuple(_line(limit) for limit in procedure.limits if LIMIT_KINDS[limit.name].moment == moment),
            cautions=tuple(caution for caution in procedure.cautions if caution.where == moment),
        )
        for moment in MOMENTS
    )
    return ProcedureSheet(procedure, in_force, moments, tuple(others), released)


@dataclass(frozen=True, slots=True)
class RecordsAsked:
    """The tables the records name, those on record, and what they say of each change."""

    named: tuple[str, ...]
    known: tuple[str, ...]
    found: tuple[RecordAsked, ...]


@dataclass(frozen=True, slots=True)
class Comparison:
    """Two revisions and what differs, moment by moment."""

    old: Procedure
    new: Procedure
    moments: tuple[tuple[str, tuple[Difference, ...]], ...]
    asked: RecordsAsked


def comparison(old: Procedure, new: Procedure, tables: Mapping[str, ChangeTable]) -> Comparison:
    """Put what differs under its moment of the work, and ask the tables what wants a new supporting record."""
    grouped = groupby(compare(old, new), key=lambda difference: difference.moment)
    moments = tuple((moment, tuple(changes)) for moment, changes in grouped)
    return Comparison(old, new, moments, _records_asked(old, new, tables))


def _records_asked(old: Procedure, new: Procedure, tables: Mapping[str, ChangeTable]) -> RecordsAsked:
    named = tables_named(old, new)
    told = tuple(f"{name} ({tables[name].edition})" if name in tables else name for name in named)
    return RecordsAsked(told, tuple(tables), tuple(records_asked(old, new, tables)))


@dataclass(frozen=True, slots=True)
class NextRevision:
    """A next revision being written: its text, what is wrong with it, what differs, what it would have said before."""

    old: Procedure
    text: str
    newest: int
    problems: tuple[str, ...] = ()
    new: Procedure | None = None
    compared: Comparison | None = None
    caught: Caught | None = None
    asks: Mapping[str, str] = field(default_factory=dict)
    refused: tuple[str, ...] = ()
    later: tuple[Procedure, ...] = ()
    """What was released since the one it was begun from: none of that stands in the text."""


def _line(limit: Limit) -> LimitLine:
    return LimitLine(limit_called(limit), span_words(limit), limit, plan_words(limit.plan))
