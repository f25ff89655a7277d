"""What the charts show, as lists: the points with their limits, capability, rare faults, what was found, checks."""

from datetime import date

from starlette.datastructures import QueryParams

from server.documents.list_csv import Cell, Column
from server.facts.moment import show_moment
from server.pages.charts.checks import typed_month
from server.pages.charts.faults import watched_faults
from server.pages.charts.gather import charts_page
from server.pages.charts.page import ChartsPage, GroupChart
from server.pages.lists.a_list import AskedList, Rows, counts, moments, numbers, texts
from server.record.reads import Reads
from server.statistics.chart import Track
from server.statistics.interval import Interval
from server.work.check_calendar import PLANS, check_calendar
from server.work.fault_series import ANY


def _page(reads: Reads, asked: QueryParams) -> ChartsPage:
    under = asked.get("under", "")
    return charts_page(reads, asked.get("quantity", "oxygen"), asked.get("shared", "bench"), under)


def _measured(reads: Reads, asked: QueryParams) -> Rows:
    page = _page(reads, asked)
    return [
        [group.name, show_moment(it.at_ms), it.frame, it.joint, it.entry, it.under, it.value, page.unit, it.low,
         it.high, *_points(group, place)]
        for group in page.groups for place, it in enumerate(group.readings)
    ]  # fmt: skip


def _points(group: GroupChart, place: int) -> list[Cell]:
    """A reading's points on the charts of its group; a group without spread has fewer charts."""
    tracks: dict[str, Track] = {track.name: track for track in group.tracks}
    single, moving = tracks["individuals"], tracks["moving range"]
    told: list[Cell] = [single.centre, single.lower[place], single.upper[place]]
    told += [moving.points[place], moving.upper[place]]
    if (smooth := tracks.get("ewma")) is None:
        return [*told, *(None,) * 6]
    up, down = tracks["up"], tracks["down"]
    told += [smooth.points[place], smooth.lower[place], smooth.upper[place]]
    return [*told, up.points[place], down.points[place], up.upper[place]]


def _capability(reads: Reads, asked: QueryParams) -> Rows:
    page = _page(reads, asked)
    return [
        [group.name, fit.low, fit.high, page.unit, fit.it.count, fit.left_out, *_interval(fit.it.cp),
         *_interval(fit.it.cpk)]
        for group in page.groups if (fit := group.fit)
    ]  # fmt: skip


def _interval(it: Interval | None) -> list[Cell]:
    return [it.estimate, it.low, it.high] if it else [None, None, None]


def _compared(reads: Reads, asked: QueryParams) -> Rows:
    rows = _page(reads, asked).compared
    return [[row.level, row.faults, row.seen, *_interval(row.share), row.p, row.q] for row in rows]


def _watched(reads: Reads, asked: QueryParams) -> Rows:
    page = watched_faults(reads, asked.get("question", ANY))
    unwatched: tuple[float | None, ...] = (None,) * len(page.joints)
    sums, limits = (page.watched.track.points, page.watched.track.upper) if page.watched else (unwatched, unwatched)
    return [
        [show_moment(it.at_ms), it.frame, it.joint, it.attempt, int(it.faulty), sums[place], limits[place]]
        for place, it in enumerate(page.joints)
    ]


def _found(reads: Reads, _: QueryParams) -> Rows:
    page = watched_faults(reads)
    bars = page.pareto.bars if page.pareto else ()
    return [[each.kind, page.asks(each.kind), each.count, *_interval(each.share), each.running_share] for each in bars]


def _checks(reads: Reads, asked: QueryParams) -> Rows:
    calendar = check_calendar(reads, typed_month(asked.get("month", "")))
    first = calendar.first.toordinal() - 1
    return [
        [date.fromordinal(first + day).isoformat(), PLANS[row.plan], row.thing, row.every, mark.state, mark.entry]
        for row in calendar.rows for day, mark in sorted(row.marks.items())
    ]  # fmt: skip


_SHARE = numbers(share="of them all, from 0 to 1", low="exact 95 % interval", high="exact 95 % interval")
CHART_LISTS: dict[str, AskedList] = {
    "measured": AskedList("What was measured, pass by pass, with its points on the charts and their limits", (
        *texts(group="bench, welder, cylinder, line or run"), *moments(at="end of the pass"),
        *texts(frame="serial", joint="joint", entry="id of the pass", made_as="procedure and run"),
        *numbers(value="in the unit beside it"), *texts(unit="its unit"),
        *numbers(allowed_low="least allowed that day", allowed_high="most allowed that day",
                 centre="of the single readings", single_low="their lower limit; empty where no reading can be",
                 single_high="their upper limit", moving_range="from the reading before", moving_range_high="its limit",
                 smoothed="EWMA", smoothed_low="its lower limit", smoothed_high="its upper limit",
                 sum_up="CUSUM upwards, in standard deviations", sum_down="CUSUM downwards, the same",
                 sum_limit="of both sums"),
    ), _measured),
    "capability": AskedList("Capability under the limit most readings of a group were welded under", (
        *texts(group="bench, welder, cylinder, line or run"),
        *numbers(allowed_low="least allowed", allowed_high="most allowed"), *texts(unit="their unit"),
        *counts(passes="how many readings", left_out="readings under another limit, or under none"),
        *numbers(cp="Cp; empty with one limit only", cp_low="95 % interval", cp_high="95 % interval",
                 cpk="Cpk", cpk_low="95 % interval", cpk_high="95 % interval"),
    ), _capability),
    "compared": AskedList("Groups held against one another: associated, never caused", (
        *texts(group="bench, welder, cylinder, line or run"), *counts(outside="passes outside", passes="of passes"),
        *_SHARE, *numbers(p="for one look", q="for having looked at them all"),
    ), _compared),
    "watched-fault": AskedList("Welded joints in true order, faulty or not on one question, with the sum of faults", (
        *moments(at="end of the last arc"), *texts(frame="serial", joint="joint"), *counts(attempt="counted from 1"),
        *counts(faulty="1: not met or not shown, 0: neither"),
        *numbers(excess="Bernoulli CUSUM; empty where there is nothing rare to watch", limit="signal above it"),
    ), _watched),
    "found": AskedList("What was found outside or unknown, most frequent first", (
        *texts(question="the question's name", asks="in words"), *counts(findings="how many"), *_SHARE,
        *numbers(running="share of it and all before it"),
    ), _found),
    "checks": AskedList("Checks of one month, day by day", (
        Column("day", "date", "day of the shop"),
        *texts(check="what is checked", of="line, instrument or welder", every="how often it is due",
               state="good, failed, waiting for its result, missing, or used: held by a check of another day",
               entry="id of the check"),
    ), _checks),
}  # fmt: skip
