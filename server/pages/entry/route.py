"""An entry's address: an entry of a joint leads to its place on the joint's page, any other is shown by itself."""

from urllib.parse import quote

from fastapi import APIRouter, Depends, Request
from fastapi.responses import RedirectResponse, Response

from server.facts.entry import JointEntry
from server.pages.entry.page import EntryPage
from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.record.reads import Reads
from server.work.frame_history import Told, tell
from server.work.refusal import NotThere
from server.work.sent_delivery import is_name

router = APIRouter(include_in_schema=False)


@router.get("/entries/{name}", dependencies=[Depends(needs())])
def one_entry(request: Request, name: str) -> Response:
    """Show one entry, or lead to where it stands among the others of its joint."""
    with request.app.state.record.reads() as reads:
        told = _told(reads, name)
        sendings = tuple(reads.sendings([name]).get(name, ()))
    if isinstance(told.entry, JointEntry):
        place = f"/history/{quote(told.entry.frame, '')}/{quote(told.entry.joint, '')}"
        return RedirectResponse(f"{place}#{quote(name, '')}", 303)
    return show(request, "entry/entry.html", EntryPage(told, sendings))


def _told(reads: Reads, name: str) -> Told:
    found = reads.entries_named([name]) if is_name(name) else []
    if not found:
        raise NotThere(f"{name!r} is no entry the record knows; its id stands beside it on the tablet and on each page")
    about = getattr(found[0].entry, "frame", None)
    beside = reads.frame_entries(about) if about else reads.shared_entries()
    mends = [each for each in beside if getattr(each.entry, "of", None) == name and each.entry.kind == "correction"]
    return next(each for each in tell(reads, [*found, *mends]) if each.entry.id == name)
