"""The calendar of checks: for every check plan and thing, on which days of a month it was made, due and missing."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import replace
from datetime import date
from typing import NamedTuple

from server.facts.checking import Bead, Check, Coupon
from server.facts.equipment import Acceptance
from server.occasions.days import Days
from server.occasions.dues import due_occasions
from server.occasions.known import Known
from server.occasions.tables import Tables
from server.occasions.tested import Tested
from server.record.reads import Reads
from server.work.known_shop import known_shop

PLANS: dict[str, str] = {
    "torch_bead_every": "Torch gas bead",
    "purge_bead_every": "Purge line bead",
    "air_check_every": "Air check of the analyser",
    "cross_check_every": "Cross-check of two analysers",
    "leak_test_every": "Leak test of the line",
    "dew_point_every": "Dew point of the line",
    "coupon_every": "Coupon of the welder",
}
_PLAN_OF_CHECK = {"air": "air_check_every", "cross": "cross_check_every", "leak": "leak_test_every"}
_PLAN_OF_CHECK |= {"dew point": "dew_point_every"}
# A plan in weeks looks over the ends of the month; five weeks hold any that the shops seen so far keep.
_MARGIN_DAYS = 35
_DAY_MS = 86_400_000


class Mark(NamedTuple):
    """What a day shows: `good`, `failed`, `waiting` for its result, `missing`, or `used` with nothing due or made."""

    state: str
    entry: str | None = None


class Row(NamedTuple):
    """One check plan for one thing, and its marks by day of the month, counted from 1."""

    plan: str
    thing: str
    every: str
    marks: dict[int, Mark]


class Calendar(NamedTuple):
    """One month: its first day and its length, the rows, and the months before and after it that hold anything."""

    first: date
    length: int
    rows: tuple[Row, ...]
    months: tuple[str, ...]


Found = dict[tuple[str, str], dict[int, Mark]]


def check_calendar(reads: Reads, month: date | None) -> Calendar:
    """Lay one month out; without one, the newest in which a pass or a check was logged."""
    known = known_shop(reads, reads.last_position())
    days = Days(known.registers.zone)
    shown = (each for each in known.shared if isinstance(each.entry, (Bead, Coupon, Check)))
    told = {days.day_of(each.entry.happened) for each in (*known.passes, *shown)}
    months = sorted({date.fromordinal(day).strftime("%Y-%m") for day in told})
    newest = date.fromordinal(max(told, default=days.day_of(reads.last_received_ms())))
    first = (month or newest).replace(day=1)
    length = (_next_month(first) - first).days
    tables = Tables(_near(known, days, first, length), None)
    span = range(first.toordinal(), first.toordinal() + length)
    found = _found(tables, span)
    rows = [_row(tables, plan, thing, found[plan, thing], span) for plan, thing in sorted(found, key=_in_order)]
    return Calendar(first, length, tuple(rows), tuple(months))


def _near(known: Known, days: Days, first: date, length: int) -> Known:
    """Only the passes around the month: what is due in it depends on no others."""
    since = days.start_ms(first.toordinal() - _MARGIN_DAYS)
    until = days.start_ms(first.toordinal() + length + _MARGIN_DAYS)
    passes = [each for each in known.passes if since - _DAY_MS <= each.entry.happened <= until + _DAY_MS]
    return replace(known, passes=passes, photos=())


def _found(tables: Tables, span: range) -> Found:
    """Used days first, then what was missing, then what was made: the later says more."""
    found: Found = defaultdict(dict)
    for occasion in due_occasions(tables):
        row = found[occasion.what, occasion.thing]
        if occasion.day in span:
            row[occasion.day] = Mark("used") if occasion.done else Mark("missing")
    for plan, thing, tested in _tests(tables):
        day = tables.days.day_of(tested.at.at_ms)
        if day in span and _says_more(found[plan, thing].get(day), tested.result):
            found[plan, thing][day] = Mark(tested.result, tested.entry.id)
    return {key: marks for key, marks in found.items() if marks}


def _says_more(known: Mark | None, result: str) -> bool:
    """A failed test of a day is not hidden by a good one after it."""
    return known is None or known.state != "failed" or result == "failed"


def _tests(tables: Tables) -> Iterator[tuple[str, str, Tested]]:
    for bead in tables.beads:
        line = bead.entry.line
        yield "purge_bead_every" if line in tables.gas.purge_lines else "torch_bead_every", line, bead
    for coupon in tables.coupons:
        yield "coupon_every", coupon.entry.welder, coupon
    for check in tables.checks:
        if (plan := _PLAN_OF_CHECK.get(check.entry.check)) is not None:
            yield plan, check.entry.subject, check


def _row(tables: Tables, plan: str, thing: str, marks: dict[int, Mark], span: Iterable[int]) -> Row:
    days = list(span)
    planned = tables.at(days[-1]).get(plan)
    return Row(plan, thing, _every(planned), {day - days[0] + 1: mark for day, mark in marks.items()})


def _every(planned: Acceptance | None) -> str:
    if planned is None:
        return "no plan in force"
    return f"every {planned.value:g} {planned.unit}" if planned.value != 1 else f"every {planned.unit.rstrip('s')}"


def _in_order(key: tuple[str, str]) -> tuple[int, str]:
    return list(PLANS).index(key[0]), key[1]


def _next_month(first: date) -> date:
    return date(first.year + first.month // 12, first.month % 12 + 1, 1)
