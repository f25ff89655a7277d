"""A decision's addresses: the paper, and each file it names."""

from fastapi import APIRouter, Depends, Request
from fastapi.responses import Response

from server.facts.deciding import Decision
from server.pages.decisions.handing_out import Size, handed_out
from server.pages.decisions.page import DecisionPage
from server.pages.frame.access import needs
from server.pages.frame.rendering import show
from server.record.reads import Reads
from server.work.evidence_files import evidence_bytes, evidence_file
from server.work.refusal import NotThere

router = APIRouter(include_in_schema=False, dependencies=[Depends(needs())])


@router.get("/decisions/{number}")
def one_decision(request: Request, number: str) -> Response:
    """Show one decision with its evidence."""
    with request.app.state.record.reads() as reads:
        found = _decision(reads, number)
        files = tuple(evidence_file(reads, request.app.state.files, each) for each in found.attachments)
    return show(request, "decisions/decision.html", DecisionPage(found, files))


@router.get("/decisions/{number}/files/{sha256}")
def evidence(request: Request, number: str, sha256: str, size: Size = "full") -> Response:
    """Hand out one file that the decision names, and no other."""
    with request.app.state.record.reads() as reads:
        named = sha256 in _decision(reads, number).attachments
        content = evidence_bytes(reads, request.app.state.files, sha256) if named else None
    if content is None:
        raise NotThere(f"{number} names no file {sha256[:12]}… that is kept here")
    return handed_out(sha256, content, size)


def _decision(reads: Reads, number: str) -> Decision:
    found = reads.registers().decisions.get(number)
    if found is None:
        raise NotThere(f"{number!r} is no decision the record knows; decisions stand in the history of their frame")
    return found
