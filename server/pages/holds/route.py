"""The address of the legal holds: all of them, and the form an owner signs."""

from typing import Annotated

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import Response

from server.pages.frame.access import needs
from server.pages.frame.leading_on import lead_on
from server.pages.frame.rendering import show
from server.pages.frame.signings import proved_signings
from server.pages.frame.visitor import Visitor
from server.pages.holds.page import HoldsPage
from server.record.book_of_lines import now_ms
from server.work.legal_hold import HoldAsked, frames_on_hold, hold
from server.work.refusal import Refusal

router = APIRouter(include_in_schema=False)
Owner = Annotated[Visitor, Depends(needs("owner"))]
Short = Annotated[str, Form(max_length=160)]


@router.get("/holds", dependencies=[Depends(needs("owner", "quality lead", "office"))])
def list_holds(request: Request, frame: str = "", done: str = "") -> Response:
    """Show the frames under hold and everything told about holds."""
    return _page(request, {"frame": frame}, (), done)


@router.post("/holds")
def place_or_lift(
    request: Request,
    visitor: Owner,
    frame: Short = "",
    act: Short = "",
    reason: Annotated[str, Form(max_length=8000)] = "",
    secret: Annotated[str, Form(max_length=200)] = "",
) -> Response:
    """Sign a hold placed or lifted."""
    try:
        signed = proved_signings(request, visitor, f"legal hold {act} on {frame}", secret, "", "")
        asked = HoldAsked(frame.strip(), act, reason, signed)
        number = request.app.state.record.write(lambda reads: hold(reads, asked, now_ms())).result()
    except Refusal as refused:
        return _page(request, {"frame": frame, "act": act, "reason": reason}, tuple(refused.problems), "")
    return lead_on(f"/holds?done={number}", number)


def _page(request: Request, filled: dict[str, str], problems: tuple[str, ...], done: str) -> Response:
    with request.app.state.record.reads() as reads:
        registers = reads.registers()
    standing = tuple(frames_on_hold(registers).values())
    told = tuple(reversed(list(registers.legal_holds.values())))
    page = HoldsPage(standing, told, filled, problems, done)
    return show(request, "holds/holds.html", page, 422 if problems else 200)
