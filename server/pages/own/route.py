"""One's own addresses: change one's PIN or pass phrase, end a session of one's own."""

from typing import Annotated, Literal
from urllib.parse import quote

from fastapi import APIRouter, Depends, Form, Request
from fastapi.responses import RedirectResponse, Response

from server.pages.frame.doorkeeper import token_of
from server.pages.frame.letting_in import let_in
from server.pages.frame.rendering import show
from server.pages.frame.visitor import Visitor
from server.pages.own.page import OwnPage
from server.pages.own.passkeys import has_a_name
from server.record.book_of_lines import now_ms
from server.work.act_in import go_on_in
from server.work.change_own import Changing, change_own
from server.work.door_told import Hand
from server.work.end_sessions import end_own
from server.work.passkeys import HOLDERS
from server.work.refusal import NotSignedIn, Refusal
from server.work.sign_in import token_hash

router = APIRouter(include_in_schema=False)


def somebody(request: Request) -> Visitor:
    """Let in anybody signed in, also who has still to choose a secret of their own."""
    found: Visitor = request.state.visitor
    if not found.signed_in and not found.changing:
        raise NotSignedIn("Nobody is signed in on this device. Sign in, and you come back to this page.")
    return found


somebody.needed_roles = ()  # type: ignore[attr-defined]
Somebody = Annotated[Visitor, Depends(somebody)]


@router.get("/own")
def own(request: Request, visitor: Somebody, done: str = "") -> Response:
    """Show one's own door."""
    return _shown(request, visitor, done)


@router.post("/own/secret")
def change(
    request: Request,
    visitor: Somebody,
    kind: Annotated[Literal["pin", "password"], Form()],
    present: Annotated[str, Form(max_length=200)],
    new: Annotated[str, Form(max_length=200)],
    again: Annotated[str, Form(max_length=200)],
) -> Response:
    """Change one's own PIN or pass phrase; every other session of one's own ends."""
    if new != again:
        return _shown(request, visitor, problems=("The two new ones are not the same; nothing was changed.",))
    changing = Changing(_person(visitor), visitor.role, visitor.device, kind, present, new)
    try:
        admitted = change_own(request.app.state.record, changing, now_ms(), request.app.state.settings.session_hours)
    except Refusal as refusal:
        return _shown(request, visitor, problems=tuple(refusal.problems))
    words = "PIN" if kind == "pin" else "pass phrase"
    answer = RedirectResponse(f"/own?done={quote(f'Your {words} is changed')}", 303)
    let_in(answer, request, admitted.token)
    return answer


@router.post("/own/end")
def end(request: Request, visitor: Somebody, session: Annotated[str, Form(max_length=64)]) -> Response:
    """End one of one's own sessions."""
    at_ms, hand = now_ms(), Hand(_person(visitor), visitor.role, visitor.device)
    try:
        device = request.app.state.record.write(lambda reads: end_own(reads, session, hand, at_ms)).result()
    except Refusal as refusal:
        return _shown(request, visitor, problems=tuple(refusal.problems))
    return RedirectResponse(f"/own?done={quote(f'The session on {device} has ended')}", 303)


@router.post("/own/role")
def act(request: Request, visitor: Somebody, role: Annotated[str, Form(max_length=60)]) -> Response:
    """Go on in another role one holds."""
    at_ms, here = now_ms(), token_hash(token_of(request.headers) or "")
    try:
        request.app.state.record.write(lambda reads: go_on_in(reads, here, role, at_ms)).result()
    except Refusal as refusal:
        return _shown(request, visitor, problems=tuple(refusal.problems))
    return RedirectResponse(f"/own?done={quote(f'You go on as {role}')}", 303)


def _person(visitor: Visitor) -> str:
    return str(visitor.person or visitor.changing)


def _shown(request: Request, visitor: Visitor, done: str = "", problems: tuple[str, ...] = ()) -> Response:
    person, at_ms = _person(visitor), now_ms()
    idle_ms = request.app.state.settings.session_idle_minutes * 60_000
    with request.app.state.record.reads() as reads:
        kinds = tuple(sorted(reads.credentials(person)))
        passkeys = tuple(reads.passkeys(person)) if visitor.holds(*HOLDERS) else None
        sessions = [each for each in reads.sessions(at_ms) if each.person == person and each.seen_ms + idle_ms > at_ms]
    sessions.sort(key=lambda each: each.seen_ms, reverse=True)
    here = token_hash(token_of(request.headers) or "")
    changing, by_name = bool(visitor.changing), has_a_name(request)
    page = OwnPage(visitor.name, kinds, changing, tuple(sessions), here, passkeys, by_name, done, problems)
    return show(request, "own/own.html", page, 409 if problems else 200)
