"""Turns what went wrong into a page for people: what happened, that nothing is lost, what to do next."""

from dataclasses import dataclass
from urllib.parse import quote

from fastapi import Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import RedirectResponse, Response
from starlette.exceptions import HTTPException

from server.pages.frame.rendering import show
from server.record.troubles import NoRoom, RecordTrouble
from server.work.refusal import NotSignedIn, NotThere, NotYours, Refusal


@dataclass(frozen=True, slots=True)
class TroublePage:
    """A title and sentences, each naming the field or the thing, what it is, and what to do."""

    title: str
    problems: tuple[str, ...]
    back: str


_TITLES = {
    400: "That could not be read",
    403: "Not yours to open",
    404: "Not in the record",
    409: "It changed meanwhile",
    413: "Too large",
    422: "Something is missing",
    503: "The record takes nothing just now",
    507: "The disk is full",
}
_STATUS: tuple[tuple[type[Exception], int], ...] = (
    (NotYours, 403),
    (NotThere, 404),
    (Refusal, 422),
    (NoRoom, 507),
    (RecordTrouble, 503),
)


def trouble_page(request: Request, trouble: Exception) -> Response:
    """Answer with the page for what went wrong; somebody not signed in is sent to the door and comes back."""
    if isinstance(trouble, NotSignedIn):
        onward = request.url.path if request.method == "GET" else "/"
        return RedirectResponse(f"/sign-in?onward={quote(onward)}", 303)
    status = status_of(trouble)
    page = TroublePage(_TITLES.get(status, "That did not work"), problems_of(trouble), _back(request))
    return show(request, "frame/trouble.html", page, status)


def status_of(trouble: Exception) -> int:
    """Give the HTTP status of what went wrong."""
    if isinstance(trouble, HTTPException):
        return trouble.status_code
    if isinstance(trouble, RequestValidationError):
        return 422
    return next((status for kind, status in _STATUS if isinstance(trouble, kind)), 500)


def problems_of(trouble: Exception) -> tuple[str, ...]:
    """Put what went wrong into sentences."""
    if isinstance(trouble, Refusal):
        return tuple(trouble.problems)
    if isinstance(trouble, HTTPException):
        return (str(trouble.detail),)
    if isinstance(trouble, RequestValidationError):
        return tuple(f"{'.'.join(str(part) for part in each['loc'][1:])}: {each['msg']}" for each in trouble.errors())
    return (str(trouble),)


def _back(request: Request) -> str:
    referer = request.headers.get("referer", "")
    host = request.headers.get("host", "")
    inside = referer.split(host, 1)[1] if host and host in referer else "/"
    return inside if inside.startswith("/") and not inside.startswith("//") else "/"
