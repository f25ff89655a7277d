"""The charts' address: one quantity, split by what its passes shared."""

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from server.pages.charts.gather import charts_page
from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.work.in_turn import costly

router = APIRouter(include_in_schema=False)


@router.get("/charts", dependencies=[Depends(needs("quality lead", "owner")), Depends(costly)])
def charts(request: Request, quantity: str = "oxygen", shared: str = "bench", under: str = "") -> Response:
    """Chart one quantity, of all passes or of one procedure and run; each has to be one of those on offer."""
    with request.app.state.record.reads() as reads:
        page = charts_page(reads, quantity, shared, under)
    return show(request, "charts/charts.html", page)
