"""The registers' address."""

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from server.occasions.days import Days
from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.pages.registers.page import RegistersPage
from server.record.book_of_lines import now_ms
from server.work.register_sheets import calibrated, on_lines, qualified_now, rods

router = APIRouter(include_in_schema=False)


@router.get("/registers", dependencies=[Depends(needs("quality lead", "owner", "office"))])
def registers(request: Request) -> Response:
    """Show the registers as known now."""
    with request.app.state.record.reads() as reads:
        known = reads.registers()
        lines, held = on_lines(reads), qualified_now(reads)
    days = Days(request.app.state.shop.zone)
    page = RegistersPage(
        tuple(held), tuple(calibrated(known)), tuple(lines), tuple(rods(known)), days.day_of(now_ms()), days
    )
    return show(request, "registers/registers.html", page)
