"""What the shared-cause page offers while somebody types: the things the record knows by those letters."""

from typing import Annotated

from fastapi import APIRouter, Depends, Query, Request
from fastapi.responses import JSONResponse

from server.pages.frame.access import needs
from server.pages.frame.visitor import Visitor
from server.pages.what_else.asked import kind_called
from server.work.things_named import things_named

router = APIRouter(include_in_schema=False)
Lead = Annotated[Visitor, Depends(needs("owner", "quality lead", "office"))]
Said = Annotated[str, Query(max_length=60)]


@router.get("/what-else/names")
def names(request: Request, _: Lead, kind: Said, typed: Said = "") -> JSONResponse:
    """Give names with a few words each; raises `Unreadable` for a kind nobody may ask by."""
    with request.app.state.record.reads() as reads:
        return JSONResponse(things_named(reads.registers(), kind_called(kind), typed))
