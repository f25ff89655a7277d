"""The lists' addresses: the CSV, plain or guarded for a spreadsheet, and the sheet that types its columns."""

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from server.documents.list_csv import list_csv, list_metadata
from server.pages.frame.access import needs
from server.pages.lists.a_list import AList
from server.pages.lists.lists import LISTS
from server.work.refusal import NotThere

router = APIRouter(include_in_schema=False)
_LEAD = [Depends(needs("quality lead", "owner"))]


@router.get("/lists/{name}.csv", dependencies=_LEAD)
def csv(request: Request, name: str, flavour: str = "plain") -> Response:
    """Send a list; the flavour `spreadsheet` keeps every text from being taken for a formula."""
    wanted = _list(name)
    with request.app.state.record.reads() as reads:
        rows = wanted.rows(reads)
    text = list_csv(wanted.columns, rows, guarded=flavour == "spreadsheet")
    return Response(text, media_type="text/csv; charset=utf-8", headers=_named(f"{name}.csv"))


@router.get("/lists/{name}.csv-metadata.json", dependencies=_LEAD)
def sheet_beside(name: str) -> Response:
    """Send what each column of a list is."""
    wanted = _list(name)
    text = list_metadata(f"{name}.csv", wanted.title, wanted.columns)
    return Response(text, media_type="application/csvm+json", headers=_named(f"{name}.csv-metadata.json"))


def _list(name: str) -> AList:
    found = LISTS.get(name)
    if found is None:
        raise NotThere(f"{name!r} is no list; there are {', '.join(LISTS)}")
    return found


def _named(file: str) -> dict[str, str]:
    return {"Content-Disposition": f'attachment; filename="{file}"'}
