"""The door's addresses for a passkey: what the browser is asked, and the way in."""

from typing import Any

from fastapi import APIRouter, Request
from fastapi.responses import JSONResponse, Response
from pydantic import BaseModel, ConfigDict, Field

from server.pages.frame.doorkeeper import token_of
from server.pages.frame.letting_in import let_in
from server.pages.frame.visitor import Visitor
from server.pages.own.passkeys import house_of
from server.pages.sign_in.route import DESK, inside
from server.record.book_of_lines import now_ms
from server.work.known_device import ELSEWHERE
from server.work.passkey_asking import ask_to_come_in
from server.work.passkeys import Answered, come_in_by_passkey

router = APIRouter(include_in_schema=False)


class Shown(BaseModel):
    """What the browser answered, and where its person wants to go."""

    model_config = ConfigDict(extra="forbid")

    credential: dict[str, Any]
    onward: str = Field(default="/", max_length=500)


@router.post("/sign-in/passkey/ask")
def ask(request: Request) -> Response:
    """Say what the browser is to prove; nobody is named, so nobody learns who has a passkey."""
    challenge = request.app.state.challenges.give(None, now_ms())
    return Response(ask_to_come_in(house_of(request), challenge), media_type="application/json")


@router.post("/sign-in/passkey")
def come_in(request: Request, shown: Shown) -> Response:
    """Let in whose passkey answered."""
    at: Visitor = request.state.visitor
    device = at.enrolled_as or (DESK if at.known_device else ELSEWHERE)
    admitted = come_in_by_passkey(
        request.app.state.record,
        request.app.state.challenges,
        Answered(shown.credential, house_of(request), now_ms()),
        device,
        request.app.state.settings.session_hours,
        token_of(request.headers),
    )
    answer = JSONResponse({"onward": inside(shown.onward)})
    let_in(answer, request, admitted.token)
    return answer
