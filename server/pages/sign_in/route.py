"""The door's addresses: sign in, hand over."""

from typing import Annotated
from urllib.parse import quote

from fastapi import APIRouter, Form, Request
from fastapi.responses import RedirectResponse, Response

from server.pages.frame.doorkeeper import COOKIE, SECURE_COOKIE, token_of
from server.pages.frame.letting_in import let_in
from server.pages.frame.rendering import show
from server.pages.frame.trouble import LONGEST_ONWARD
from server.pages.frame.visitor import Visitor
from server.pages.own.passkeys import has_a_name
from server.pages.sign_in.page import SignInPage
from server.record.book_of_lines import now_ms
from server.record.keeping_sessions import end_session
from server.record.written import Written
from server.work.badge import come_in_by_badge
from server.work.known_device import ELSEWHERE
from server.work.refusal import Refusal
from server.work.sign_in import Admitted, Asked, sign_in, token_hash

router = APIRouter(include_in_schema=False)
DESK = "desk"
DEVICE_COOKIE = "strawline_device"
_A_YEAR_S = 31_536_000


def _page(request: Request, chosen: str = "", onward: str = "/", problem: str = "", device: str = "") -> SignInPage:
    at: Visitor = request.state.visitor
    with request.app.state.record.reads() as reads:
        registers = reads.registers()
        able = reads.people_with_credentials("password")
        able |= reads.people_with_credentials("pin") if at.known_device else frozenset()
        passkeys = bool(reads.passkeys()) and has_a_name(request)
    people = [each for each in registers.people.values() if each.id in able and not each.left]
    devices = sorted({device for bench in registers.benches.values() for device in bench.devices})
    choice = (DESK, *devices) if at.known_device and not at.enrolled_as else ()
    remembered = request.cookies.get(f"__Host-{DEVICE_COOKIE}") or request.cookies.get(DEVICE_COOKIE, DESK)
    device = _device(at, device or remembered)
    by_name = tuple(sorted(people, key=lambda each: each.name))
    return SignInPage(by_name, choice, chosen, device, inside(onward), problem, at.known_device, passkeys, at.unproved)


def _device(at: Visitor, chosen: str) -> str:
    """Give the device by its key; only on the server's own screen is it whichever was chosen."""
    return at.enrolled_as or (chosen if at.known_device else ELSEWHERE)


def inside(onward: str) -> str:
    """Give the address somebody wanted to go to, if it lies inside the house, else its front."""
    # Only a path of our own: `//elsewhere` and `/\elsewhere` would leave the house.
    return onward if onward.startswith("/") and onward[1:2] not in ("/", "\\") else "/"


@router.get("/sign-in")
def ask(request: Request, onward: str = "/") -> Response:
    """Show who can sign in; who has still to choose a secret of their own is shown where."""
    if request.state.visitor.changing:
        return RedirectResponse("/own", 303)
    return show(request, "sign_in/sign_in.html", _page(request, onward=onward))


@router.post("/sign-in")
def come_in(
    request: Request,
    person: Annotated[str, Form(max_length=60)],
    secret: Annotated[str, Form(max_length=200)],
    device: Annotated[str, Form(max_length=60)] = DESK,
    onward: Annotated[str, Form(max_length=LONGEST_ONWARD)] = "/",
) -> Response:
    """Let somebody in, or say why not."""
    settings, device = request.app.state.settings, _device(request.state.visitor, device)
    try:
        admitted = sign_in(
            request.app.state.record,
            Asked(person, secret, device),
            now_ms(),
            settings.session_hours,
            token_of(request.headers),
        )
    except Refusal as refusal:
        return show(request, "sign_in/sign_in.html", _page(request, person, onward, str(refusal), device), 401)
    return _onward(request, admitted, device, onward)


@router.post("/sign-in/badge")
def come_in_by_card(
    request: Request,
    badge: Annotated[str, Form(max_length=100)],
    onward: Annotated[str, Form(max_length=LONGEST_ONWARD)] = "/",
) -> Response:
    """Let in whose badge was scanned, or say why not."""
    remembered = request.cookies.get(f"__Host-{DEVICE_COOKIE}") or request.cookies.get(DEVICE_COOKIE, DESK)
    device, hours = _device(request.state.visitor, remembered), request.app.state.settings.session_hours
    try:
        admitted = come_in_by_badge(request.app.state.record, badge, device, now_ms(), hours, token_of(request.headers))
    except Refusal as refusal:
        return show(request, "sign_in/sign_in.html", _page(request, "", onward, str(refusal)), 401)
    return _onward(request, admitted, device, onward)


def _onward(request: Request, admitted: Admitted, device: str, onward: str) -> Response:
    answer = RedirectResponse("/own" if admitted.session.must_change else inside(onward), 303)
    secure = request.url.scheme == "https"
    let_in(answer, request, admitted.token)
    remembers = f"__Host-{DEVICE_COOKIE}" if secure else DEVICE_COOKIE
    answer.set_cookie(remembers, quote(device), max_age=_A_YEAR_S, httponly=True, secure=secure, samesite="strict")
    return answer


@router.post("/hand-over")
def hand_over(request: Request) -> Response:
    """End the session and show the names for the next one."""
    token = token_of(request.headers)
    if token:
        ended = Written(answer=lambda _: None, changes=(end_session(token_hash(token)),))
        request.app.state.record.write(lambda _: ended).result()
    answer = RedirectResponse("/sign-in", 303)
    answer.delete_cookie(COOKIE, path="/")
    answer.delete_cookie(SECURE_COOKIE, path="/", secure=True)
    return answer
