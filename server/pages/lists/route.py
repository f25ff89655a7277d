"""The lists' addresses: the CSV, plain or guarded for a spreadsheet, and the sheet that types its columns."""

from typing import Annotated

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from server.documents.list_csv import list_csv, list_metadata
from server.pages.frame.access import needs
from server.pages.frame.visitor import Visitor
from server.pages.lists.a_list import OFFICE, AList, AskedList
from server.pages.lists.lists import ASKED_LISTS, LISTS
from server.work.in_turn import costly
from server.work.refusal import NotThere, NotYours

router = APIRouter(include_in_schema=False)
_reader = needs(*OFFICE)
Reader = Annotated[Visitor, Depends(_reader)]


@router.get("/lists/{name}.csv", dependencies=[Depends(_reader), Depends(costly)])
def csv(request: Request, visitor: Reader, name: str, flavour: str = "plain") -> Response:
    """Send a list; the flavour `spreadsheet` keeps every text from being taken for a formula."""
    wanted = _list(name, visitor)
    with request.app.state.record.reads() as reads:
        rows = wanted.asked(reads, request.query_params)
    text = list_csv(wanted.columns, rows, guarded=flavour == "spreadsheet")
    return Response(text, media_type="text/csv; charset=utf-8", headers=_named(f"{name}.csv"))


@router.get("/lists/{name}.csv-metadata.json")
def sheet_beside(visitor: Reader, name: str) -> Response:
    """Send what each column of a list is."""
    wanted = _list(name, visitor)
    text = list_metadata(f"{name}.csv", wanted.title, wanted.columns)
    return Response(text, media_type="application/csvm+json", headers=_named(f"{name}.csv-metadata.json"))


def _list(name: str, visitor: Visitor) -> AList | AskedList:
    found = LISTS.get(name) or ASKED_LISTS.get(name)
    if found is None:
        raise NotThere(f"{name!r} is no list; there are {', '.join((*LISTS, *ASKED_LISTS))}")
    if not visitor.holds(*found.roles):
        raise NotYours(f"This list is for {' or '.join(found.roles)}; {visitor.name} is {', '.join(visitor.roles)}.")
    return found


def _named(file: str) -> dict[str, str]:
    return {"Content-Disposition": f'attachment; filename="{file}"'}
