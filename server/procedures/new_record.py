"""Which changes of a next revision want a new supporting record, by the tables its records name."""

from collections.abc import Iterator, Mapping
from typing import Literal, NamedTuple

from server.facts.change_table import GROUP, WELD, ChangeRow, ChangeTable
from server.facts.limit_kinds import LIMIT_KINDS
from server.facts.procedure import Procedure, SupportingRecord
from server.procedures.variables import Said, said_of

Answer = Literal["new record", "record named", "no new record", "does not apply", "unknown"]


class RecordAsked(NamedTuple):
    """One variable of one table: how it was, how it is, what the row says, and why in a sentence."""

    variable: str
    clause: str
    was: str
    now: str
    answer: Answer
    why: str
    source: str = ""


def tables_named(old: Procedure, new: Procedure) -> list[str]:
    """Give the tables the records of either revision name, so that dropping a name drops no question."""
    return list(dict.fromkeys(name for paper in (old, new) for record in paper.supports for name in record.changes_by))


def records_asked(old: Procedure, new: Procedure, tables: Mapping[str, ChangeTable]) -> list[RecordAsked]:
    """Give, for each variable of the tables named, the row that speaks of its change or cannot be answered."""
    found: list[RecordAsked] = []
    for name in tables_named(old, new):
        table = tables.get(name)
        found += _asked(old, new, table) if table else [_no_table(name)]
    return found


def record_missing(asked: list[RecordAsked]) -> list[str]:
    """Tell, for each change that wants a new record and names none, what to do; an empty list lets it be released."""
    return [
        f"{each.variable}: {each.was} became {each.now}; by {each.clause} that wants a new supporting record. "
        "Add the record it was tested by under [[supports]], or take the change out."
        for each in asked
        if each.answer == "new record"
    ]


def _no_table(name: str) -> RecordAsked:
    why = "A record names this table and it is not on record; type it in from your own copy, as a change table."
    return RecordAsked(name, "", "", "", "unknown", why)


def _asked(old: Procedure, new: Procedure, table: ChangeTable) -> Iterator[RecordAsked]:
    for variable in dict.fromkeys(row.variable for row in table.rows):
        rows = [row for row in table.rows if row.variable == variable]
        changed = [row for row in rows if _changed(row, old, new)]
        if changed:
            yield _answered(changed, old, new)
        elif not rows[0].of_a_limit and None in (said_of(old, variable), said_of(new, variable)):
            yield _not_told(rows, old, new)


def _not_told(rows: list[ChangeRow], old: Procedure, new: Procedure) -> RecordAsked:
    """What does not apply to these metals and welds need not be told."""
    row = next((row for row in rows if row.needs == "does not apply" and _is_for(row, old, new)), None)
    return _told(row, old, new) if row else _unsaid(rows[0], rows[0].variable, old, new)


def _answered(changed: list[ChangeRow], old: Procedure, new: Procedure) -> RecordAsked:
    """Of the rows about a change, the first that is for these metals and welds speaks."""
    first = next((row for row in changed if _is_for(row, old, new)), None)
    if first is not None:
        return _told(first, old, new)
    row = changed[0]
    for variable, wanted in ((GROUP, row.groups), (WELD, row.welds)):
        if wanted and _either(variable, old, new) is None:
            return _unsaid(row, variable, old, new)
    why = "No row is for these metals and welds; read it in your own copy of the code."
    return _of(row, old, new, "unknown", why)


def _told(row: ChangeRow, old: Procedure, new: Procedure) -> RecordAsked:
    if row.needs != "new record":
        return _of(row, old, new, row.needs, "The row says so for these metals and welds.")
    if welded := next((each for each in new.supports if _welded_so(each, row, new)), None):
        return _of(row, old, new, "no new record", f"{welded.id} was welded so already.")
    had = {each.id for each in old.supports}
    if fresh := [each.id for each in new.supports if each.id not in had]:
        return _of(row, old, new, "record named", f"It rests on {' and '.join(fresh)}: see that it was welded so.")
    return _of(row, old, new, "new record", "No new record is named yet.")


def _welded_so(record: SupportingRecord, row: ChangeRow, new: Procedure) -> bool:
    now = said_of(new, row.variable)
    held = record.variables.get(row.variable)
    return now is not None and held is not None and (set(now) <= set(held) if now else not held)


def _is_for(row: ChangeRow, old: Procedure, new: Procedure) -> bool:
    groups, welds = _either(GROUP, old, new), _either(WELD, old, new)
    return _meets(row.groups, groups) and _meets(row.welds, welds)


def _meets(wanted: tuple[str, ...], said: frozenset[str] | None) -> bool:
    return not wanted or (said is not None and not said.isdisjoint(wanted))


def _either(variable: str, old: Procedure, new: Procedure) -> frozenset[str] | None:
    """What either revision says: a change away from a metal or weld is a change of it still."""
    said = [each for each in (said_of(old, variable), said_of(new, variable)) if each is not None]
    return frozenset().union(*said) if said else None


def _changed(row: ChangeRow, old: Procedure, new: Procedure) -> bool:
    if row.of_a_limit:
        return any(_moved(row, was, now) for was, now in _moves(row, old, new))
    was, now = said_of(old, row.variable), said_of(new, row.variable)
    if was is None or now is None or was == now:
        return False
    return ("added" if not was else "dropped" if not now else "changed") in row.change


def _moves(row: ChangeRow, old: Procedure, new: Procedure) -> Iterator[tuple[float, float]]:
    was, now = (_ends(paper, row) for paper in (old, new))
    return ((was[place], now[place]) for place in was if place in now)


def _ends(paper: Procedure, row: ChangeRow) -> dict[tuple[object, ...], float]:
    """The low end of a limit is what it may be lowered to, the high end what it may be raised to."""
    end = "high" if row.raised_by is not None else "low"
    return {
        (limit.line, limit.side, limit.zone, limit.runs, limit.joint_kinds): value
        for limit in paper.limits
        if limit.name == row.variable and (value := getattr(limit, end)) is not None
    }


def _moved(row: ChangeRow, was: float, now: float) -> bool:
    slack = 1e-9 * max(abs(was), abs(now), 1.0)
    if row.raised_by is not None:
        return now - was >= row.raised_by - slack
    if row.lowered_by is not None:
        return was - now >= row.lowered_by - slack
    return was - now >= was * (row.lowered_percent or 0) / 100 - slack


def _unsaid(row: ChangeRow, variable: str, old: Procedure, new: Procedure) -> RecordAsked:
    silent = " and ".join(f"rev {each.revision}" for each in (old, new) if said_of(each, variable) is None)
    why = f'The {variable} is not said in {silent}; write it under [variables], such as "{variable}" = ["..."].'
    return _of(row, old, new, "unknown", why)


def _of(row: ChangeRow, old: Procedure, new: Procedure, answer: Answer, why: str) -> RecordAsked:
    if row.of_a_limit:
        moves = next((each for each in _moves(row, old, new) if _moved(row, *each)), None)
        kind = LIMIT_KINDS.get(row.variable)
        unit, words = (kind.unit, kind.words) if kind else ("", row.variable)
        was, now = (f"{each:g} {unit}" for each in moves) if moves else ("", "")
        return RecordAsked(words, row.clause, was, now, answer, why, row.source)
    was, now = (_words(said_of(paper, row.variable)) for paper in (old, new))
    return RecordAsked(row.variable, row.clause, was, now, answer, why, row.source)


def _words(said: Said | None) -> str:
    return "not said" if said is None else " · ".join(said) or "none"
