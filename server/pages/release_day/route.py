"""The address of the day of release of one frame."""

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.pages.release_day.page import ReleaseDayPage
from server.work.legal_hold import standing_hold
from server.work.release_day import release_day

router = APIRouter(include_in_schema=False)


@router.get("/history/{serial}/release-day", dependencies=[Depends(needs("owner", "quality lead", "office"))])
def on_that_day(request: Request, serial: str) -> Response:
    """Show what was open, waived or late when the frame was released."""
    with request.app.state.record.reads() as reads:
        day = release_day(reads, serial)
        hold = standing_hold(reads.registers(), serial)
    return show(request, "release_day/release_day.html", ReleaseDayPage(day, hold))
