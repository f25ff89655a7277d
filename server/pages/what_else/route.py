"""The shared-cause page's addresses: the page, and the same as a sheet."""

import csv
import io
from datetime import date, timedelta
from typing import Annotated
from urllib.parse import urlencode

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import Response

from server.charts.time_band import TimeBand, lay_band
from server.facts.moment import show_moment
from server.occasions.days import Days
from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.pages.frame.visitor import Visitor
from server.pages.frame.wording import local_moment
from server.pages.what_else.page import WhatElsePage
from server.work.refusal import Unreadable
from server.work.what_else import KINDS, Kind, WhatElse, what_else

router = APIRouter(include_in_schema=False)
Lead = Annotated[Visitor, Depends(needs("owner", "quality lead", "office"))]
Thing = Annotated[str, Query(alias="id", max_length=160)]
Day = Annotated[str, Query(max_length=10)]
_GOOD = {True: "good", False: "not good"}
COLUMNS = ("thing", "subject", "frame", "where", "customer", "shipped", "first pass", "last pass", "passes")


@router.get("/what-else")
def page(
    request: Request, visitor: Lead, kind: str = "cylinder", thing: Thing = "", since: Day = "", until: Day = ""
) -> Response:
    """Show everything that shares a thing, cut by two days where they are given."""
    found = _found(request, kind, thing, since, until) if thing else None
    asked = urlencode({"kind": kind, "id": thing, "since": since, "until": until})
    sees = visitor.holds("owner", "quality lead", "office")
    told = WhatElsePage(kind, thing, since, until, found, _band(found, request) if found else None, asked, sees)
    return show(request, "what_else/what_else.html", told)


@router.get("/what-else.csv")
def sheet(
    request: Request, _: Lead, kind: str = "cylinder", thing: Thing = "", since: Day = "", until: Day = ""
) -> Response:
    """Give the same as a sheet, one line to a joint."""
    found = _found(request, kind, thing, since, until)
    out = io.StringIO()
    rows = csv.writer(out, lineterminator="\r\n")
    rows.writerow(COLUMNS)
    for each in found.shared:
        shipped = show_moment(each.shipped_ms) if each.shipped_ms is not None else ""
        ends = (show_moment(each.at_ms[0]), show_moment(each.at_ms[-1]), " ".join(each.passes))
        row = (f"{kind} {thing}", each.subject, each.frame, each.place, each.customer, shipped, *ends)
        rows.writerow(f"'{cell}" if cell[:1] in ("=", "+", "-", "@") else cell for cell in row)
    return Response(out.getvalue().encode("utf-8-sig"), media_type="text/csv; charset=utf-8")


def _found(request: Request, kind: str, thing: str, since: str, until: str) -> WhatElse:
    known: Kind | None = next((each for each in KINDS if each == kind), None)
    if known is None:
        raise Unreadable(f"kind: {kind!r} is nothing to ask by; ask by {', '.join(KINDS)}")
    days = Days(request.app.state.shop.sheet().zone)
    first, after = _day("since", since), _day("until", until)
    since_ms = days.start_ms(first.toordinal()) if first else None
    until_ms = days.start_ms((after + timedelta(days=1)).toordinal()) if after else None
    with request.app.state.record.reads() as reads:
        return what_else(reads, known, thing.strip(), since_ms, until_ms)


def _day(name: str, written: str) -> date | None:
    try:
        return date.fromisoformat(written) if written else None
    except ValueError:
        raise Unreadable(f"{name}: {written!r} is not a day; write it as 2030-04-02, or leave it empty") from None


def _band(found: WhatElse, request: Request) -> TimeBand:
    zone = request.app.state.shop.sheet().zone
    checks = [
        (each.at_ms, each.good, f"{each.words}, {local_moment(each.at_ms, zone)}, {_GOOD[each.good]}")
        for each in found.checks
    ]
    return lay_band([at_ms for each in found.shared for at_ms in each.at_ms], checks)
