"""The address of the upkeep page, for the owner."""

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.pages.upkeep.page import WORDS, UpkeepPage
from server.upkeep.parts import Watched
from server.work.upkeep_sheet import in_postgres, upkeep_sheet

router = APIRouter(include_in_schema=False)


@router.get("/upkeep", dependencies=[Depends(needs("owner"))])
def upkeep(request: Request) -> Response:
    """Look at everything the service needs, and show it."""
    watched: Watched = request.app.state.watched
    settings = watched.settings
    page = UpkeepPage(upkeep_sheet(watched), watched.now(), str(settings.data_folder), in_postgres(settings), WORDS)
    return show(request, "upkeep/upkeep.html", page)
