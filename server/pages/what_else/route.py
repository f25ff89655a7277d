"""The shared-cause page's address."""

from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import Response

from server.charts.time_band import TimeBand, lay_band
from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.pages.frame.visitor import Visitor
from server.pages.frame.wording import local_moment
from server.pages.what_else.asked import Question, found_by
from server.pages.what_else.page import WhatElsePage
from server.work.legal_hold import frames_on_hold
from server.work.passes_laid import PassesLaid
from server.work.what_checks import Beside
from server.work.what_else import WhatElse

router = APIRouter(include_in_schema=False)
Lead = Annotated[Visitor, Depends(needs("owner", "quality lead", "office"))]
Name = Annotated[str, Query(max_length=40)]
_GOOD = {True: "good", False: "not good"}


@router.get("/what-else")
def page(request: Request, visitor: Lead, asked: Question, place: Name = "", part: int = 1) -> Response:
    """Show everything that shares some things, cut by two days or by a failed check."""
    found = found_by(request, asked) if asked.things else None
    with request.app.state.record.reads() as reads:
        held = frames_on_hold(reads.registers())
    told = WhatElsePage(
        asked=asked.things,
        since=asked.since,
        until=asked.until,
        found=found,
        band=_band(found, request) if found else None,
        held=frozenset(held),
        sees_customers=visitor.holds("owner", "quality lead", "office"),
        place=place,
        part=part,
    )
    return show(request, "what_else/what_else.html", told)


def _band(found: WhatElse, request: Request) -> TimeBand:
    zone = request.app.state.shop.sheet().zone

    def words(each: Beside) -> str:
        return f"{each.words}, {local_moment(each.at_ms, zone)}, {_GOOD[each.good]}"

    checks = found.checks
    return lay_band(PassesLaid(found.sought) if found.sought.rows else None, checks.good, checks.failed, words)
