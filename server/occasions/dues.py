"""Checks that were due for what was in use: by shift, by week, by the days a coupon lasts."""

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from itertools import groupby

from server.facts.occasion_line import DueOccasion
from server.facts.subject import day_subject
from server.occasions.about import About, asked_about
from server.occasions.tables import Tables
from server.occasions.tested import Tested

# Date ordinal 1 was a Monday, so whole weeks run Monday to Sunday.
_MONDAY = 1


def due_occasions(tables: Tables, about: About = None) -> Iterator[DueOccasion]:
    """Give every check that fell due for a thing in use, done or not."""
    purge = tables.gas.purge_lines
    for line in asked_about(tables.uses.by_line, about):
        days = _days(use.day for use in tables.uses.by_line[line])
        made = _made(tables, tables.gas.beads.get(line, ()))
        if line in purge:
            yield from _weekly(tables, "purge_bead_every", line, days, made)
        elif line in tables.torch_lines:
            yield from _by_shift(tables, "torch_bead_every", line, days, made)
        yield from _weekly(tables, "leak_test_every", line, days, _checked(tables, "leak", line))
        yield from _weekly(tables, "dew_point_every", line, days, _checked(tables, "dew point", line))
    for instrument in asked_about(tables.uses.by_instrument, about):
        days = _days(use.day for use in tables.uses.by_instrument[instrument] if use.oxygen_by == instrument)
        yield from _by_shift(tables, "air_check_every", instrument, days, _checked(tables, "air", instrument))
        crossed = _checked(tables, "cross", instrument)
        if crossed:
            yield from _weekly(tables, "cross_check_every", instrument, days, crossed)
    yield from _coupons(tables, about)


def _by_shift(tables: Tables, what: str, thing: str, days: list[int], made: dict[int, str]) -> Iterator[DueOccasion]:
    """A shift is a day of the shop here; the check may be made at any time of it, since it may be entered late."""
    for day in days:
        if what in tables.at(day):
            yield _due(tables, what, thing, day, made.get(day))


def _weekly(tables: Tables, what: str, thing: str, days: list[int], made: dict[int, str]) -> Iterator[DueOccasion]:
    """A stretch of so many weeks is due once it is over; its subject is the last day the thing was used in it."""
    in_force = [day for day in days if what in tables.at(day)]
    for _, group in groupby(in_force, key=lambda day: _stretch(tables, what, day)):
        used = list(group)
        weeks = _weeks(tables, what, used[0])
        first = (used[0] - _MONDAY) // (7 * weeks) * 7 * weeks + _MONDAY
        if tables.today >= first + 7 * weeks:
            done = next((made[day] for day in range(first, first + 7 * weeks) if day in made), None)
            yield _due(tables, what, thing, used[-1], done)


def _coupons(tables: Tables, about: About) -> Iterator[DueOccasion]:
    """Only for work under procedures some coupon of that welder qualified: without any, none was ever asked for."""
    for welder in asked_about(tables.tested_welders, about):
        told = tables.coupons_of(welder)
        covered = {procedure for each in told for procedure in each.entry.procedures}
        coupons = [(tables.days.day_of(each.at.at_ms), each.told_in) for each in told]
        uses = (use for use in tables.uses.by_welder.get(welder, ()) if tables.procedure_of(use) in covered)
        starts = [day for day, _ in coupons]
        for day in _days(use.day for use in uses):
            lasts = tables.at(day).get("coupon_every")
            if lasts is not None:
                place = bisect_right(starts, day)
                recent = place and day - starts[place - 1] <= lasts.value
                yield _due(tables, "coupon_every", welder, day, coupons[place - 1][1] if recent else None)


def _due(tables: Tables, what: str, thing: str, day: int, done: str | None) -> DueOccasion:
    return DueOccasion(day_subject(thing, day), what, thing, day, True, done, tables.at(day))


def _days(days: Iterable[int]) -> list[int]:
    return sorted(set(days))


def _made(tables: Tables, tests: Iterable[Tested]) -> dict[int, str]:
    return {tables.days.day_of(each.at.at_ms): each.told_in for each in tests}


def _checked(tables: Tables, check: str, thing: str) -> dict[int, str]:
    return _made(tables, (each for each in tables.checks_about(thing) if each.entry.check == check))


def _weeks(tables: Tables, what: str, day: int) -> int:
    return max(1, round(tables.at(day)[what].value))


def _stretch(tables: Tables, what: str, day: int) -> int:
    return (day - _MONDAY) // (7 * _weeks(tables, what, day))
