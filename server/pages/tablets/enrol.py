"""Where the one-time invitation leads: the tablet says yes, and gets the key it is known by from then on."""

from typing import Annotated

from fastapi import APIRouter, Form, Request
from fastapi.responses import RedirectResponse, Response

from server.pages.frame.doorkeeper import KEY_COOKIE, SECURE_KEY_COOKIE
from server.pages.frame.rendering import show
from server.pages.tablets.page import EnrolPage
from server.record.book_of_lines import now_ms
from server.work.enrolling import Invited, NotInvited, enrol
from server.work.refusal import Refusal

router = APIRouter(include_in_schema=False)
# Browsers keep no cookie longer than some 400 days; each enrolment starts them anew.
KEY_LASTS_S = 34_000_000


@router.get("/enrol")
def ask(request: Request) -> Response:
    """Ask for the invitation; the page's script takes it from behind the address's hash, which is never sent."""
    return show(request, "tablets/enrol.html", EnrolPage("", None, ()))


@router.post("/enrol/invitation")
def look(request: Request, invitation: Annotated[str, Form(max_length=100)] = "") -> Response:
    """Show what the invitation is for; looking at it does not use it up."""
    try:
        invited: Invited = request.app.state.invitations.look(invitation, now_ms())
    except NotInvited as refusal:
        return show(request, "tablets/enrol.html", EnrolPage("", None, tuple(refusal.problems)), 409)
    return show(request, "tablets/enrol.html", EnrolPage(invitation, invited, ()))


@router.post("/enrol")
def accept(
    request: Request,
    invitation: Annotated[str, Form(max_length=100)],
    public_key: Annotated[str, Form(max_length=400)] = "",
) -> Response:
    """Enrol this browser as the tablet the invitation is for."""
    try:
        key = enrol(request.app.state.record, request.app.state.invitations, invitation, public_key, now_ms())
    except Refusal as refusal:
        return show(request, "tablets/enrol.html", EnrolPage("", None, tuple(refusal.problems)), 409)
    answer = RedirectResponse("/sign-in", 303)
    secure = request.url.scheme == "https"
    name = SECURE_KEY_COOKIE if secure else KEY_COOKIE
    answer.set_cookie(name, key, max_age=KEY_LASTS_S, httponly=True, secure=secure, samesite="strict", path="/")
    return answer
