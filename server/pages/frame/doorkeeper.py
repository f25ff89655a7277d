"""Stands before every request: whose visit it is, whether another site sent it, and what every answer carries."""

from collections.abc import Awaitable, Callable
from http.cookies import CookieError, SimpleCookie
from typing import Any
from urllib.parse import urlsplit

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import Request
from starlette.responses import PlainTextResponse, Response
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from server.pages.frame.turnstile import Turnstile
from server.pages.frame.visitor import Visitor
from server.record.book_of_lines import Record, now_ms
from server.record.door_facts import Device
from server.record.troubles import DatabaseAway
from server.settings import Settings
from server.work.device_proof import DeviceProofs
from server.work.known_device import known_device
from server.work.stay import stay
from server.work.visit import Visit, visit_of

COOKIE = "strawline_session"
SECURE_COOKIE = "__Host-strawline_session"
KEY_COOKIE = "strawline_key"
SECURE_KEY_COOKIE = "__Host-strawline_key"
PROOF_COOKIE = "strawline_proof"
SECURE_PROOF_COOKIE = "__Host-strawline_proof"
_SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
_HEADERS = {
    "Content-Security-Policy": "default-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none'; "
    "frame-ancestors 'none'; form-action 'self'",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "camera=(self), microphone=(), geolocation=()",
}
_FOREIGN = (
    "Refused: this request was sent by another site. Open the shop's own page and do it there. Nothing was recorded."
)

_ASKED_OF_A_BROKEN_ONE = ("/livez", "/readyz")
_SOON = {"Retry-After": "5"}
_TOO_OFTEN = "Refused: this device asks too often and is none the shop knows. Wait {} s. Nothing was recorded."


class Doorkeeper:
    """Looks up the visitor, turns away what other sites send, and puts the security headers on every answer."""

    def __init__(
        self,
        app: ASGIApp,
        record: Record,
        settings: Settings,
        proofs: DeviceProofs,
        near: Callable[[Request], bool] = lambda _: False,
    ) -> None:
        """`near` says of a request that it was made on the server's own screen, which counts as enrolled."""
        self._app = app
        self._record = record
        self._settings = settings
        self._near = near
        self._proofs = proofs
        self._turnstile = Turnstile()

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Serve one request."""
        if scope["type"] != "http":
            await self._app(scope, receive, send)
            return
        secure = scope["scheme"] == "https"

        async def send_with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                _put_headers(MutableHeaders(scope=message), secure)
            await send(message)

        headers = Headers(scope=scope)
        if scope["method"] not in _SAFE and from_another_site(headers):
            await PlainTextResponse(_FOREIGN, 403)(scope, receive, send_with_headers)
            return
        token, key = token_of(headers), cookie_of(headers, SECURE_KEY_COOKIE, KEY_COOKIE)
        try:
            visit, device = await run_in_threadpool(self._look_up, token, key) if token or key else (None, None)
        except DatabaseAway as away:
            if scope["path"] not in _ASKED_OF_A_BROKEN_ONE:
                await PlainTextResponse(str(away), 503, _SOON)(scope, receive, send_with_headers)
                return
            visit, device = None, None
        unproved = "" if device is None or self._has_proved(device, headers) else device.id
        device = None if unproved else device
        near = self._near(Request(scope))
        if not (near or visit or device) and (wait_s := self._turnstile.wait_s(_machine(scope))):
            told = PlainTextResponse(_TOO_OFTEN.format(wait_s), 429, {"Retry-After": str(wait_s)})
            await told(scope, receive, send_with_headers)
            return
        scope.setdefault("state", {})["visitor"] = visitor_of(visit, device, near=near, unproved=unproved)
        await self._app(scope, receive, send_with_headers)

    def _has_proved(self, device: Device, headers: Headers) -> bool:
        # One enrolled before tablets had keys of their own has only its cookie to show.
        shown = cookie_of(headers, SECURE_PROOF_COOKIE, PROOF_COOKIE)
        return device.public_key is None or self._proofs.holds(shown, device.id, now_ms())

    def _look_up(self, token: str | None, key: str | None) -> tuple[Visit | None, Device | None]:
        at_ms = now_ms()
        with self._record.reads() as reads:
            visit = visit_of(reads, token, at_ms, self._settings.session_idle_minutes) if token else None
            device = known_device(reads, key) if key else None
        if visit:
            stay(self._record, visit.session, at_ms)
        return visit, device


Tell = Callable[[Request, Any], Response | Awaitable[Response]]


def with_headers(tell: Tell) -> Tell:
    """Let the answer to what nobody foresaw carry the headers too: it is made outside every doorkeeper."""

    async def told(request: Request, error: Exception) -> Response:
        answer = tell(request, error)
        answer = answer if isinstance(answer, Response) else await answer
        _put_headers(answer.headers, request.url.scheme == "https")
        return answer

    return told


def from_another_site(headers: Headers) -> bool:
    """Tell whether a browser says another site sent this; without its word the Origin must be our own, if there is one.

    A request with neither header was not sent by a browser's page, so no visitor's cookie was lent to it by a stranger.
    """
    site = headers.get("sec-fetch-site")
    if site is not None:
        return site not in ("same-origin", "none")
    origin = headers.get("origin")
    return origin is not None and urlsplit(origin).netloc != headers.get("host")


def _machine(scope: Scope) -> str:
    client = scope.get("client")
    return str(client[0]) if client else ""


def token_of(headers: Headers) -> str | None:
    """Give the session token a request carries."""
    return cookie_of(headers, SECURE_COOKIE, COOKIE)


def cookie_of(headers: Headers, *names: str) -> str | None:
    """Give the first of these cookies that a request carries."""
    try:
        cookies = SimpleCookie(headers.get("cookie", ""))
    except CookieError:
        return None
    return next((cookies[name].value for name in names if name in cookies), None)


def visitor_of(visit: Visit | None, device: Device | None = None, *, near: bool = False, unproved: str = "") -> Visitor:
    """Give the visitor a page speaks to."""
    known, name = near or device is not None, device.id if device else ""
    if visit is None:
        return Visitor(device=name, known_device=known, enrolled_as=name, unproved=unproved)
    person, session = visit
    if session.must_change:
        return Visitor(None, person.name, session.role, (), session.device, known, name, person.id)
    since_ms = session.created_ms
    return Visitor(person.id, person.name, session.role, person.roles, session.device, known, name, since_ms=since_ms)


def _put_headers(headers: MutableHeaders, secure: bool) -> None:
    for name, value in _HEADERS.items():
        headers.setdefault(name, value)
    headers.setdefault("Cache-Control", "no-store")
    if secure:
        headers.setdefault("Strict-Transport-Security", "max-age=31536000; includeSubDomains")
