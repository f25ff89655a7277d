"""Tells a person what went wrong on a page: what happened, that nothing is lost, and what to do next."""

import re
from dataclasses import dataclass
from urllib.parse import quote, urlsplit

from fastapi import Request
from fastapi.responses import RedirectResponse, Response

from server.pages.frame.rendering import show


@dataclass(frozen=True, slots=True)
class TroublePage:
    """A title, sentences that name the thing and what to do, and the way back."""

    title: str
    problems: tuple[str, ...]
    back: str


LONGEST_ONWARD = 500
"""An address longer than this does not come back through the door; its page does, without what was asked of it."""
_FIELD = re.compile(r"[\w.]+: (?:found |nothing was given)|\w*_\w*\b")
_TITLES = {
    400: "That could not be read",
    403: "Not yours to open",
    404: "Not in the record",
    409: "Not done",
    413: "Too large",
    422: "Something is missing or does not fit",
    500: "Something failed",
    503: "Not just now",
    507: "The disk is full",
}


def trouble_page(request: Request, status: int, detail: str) -> Response:
    """Answer with the page for what went wrong; somebody not signed in is sent to the door and comes back."""
    if status == 401:
        asked = _address(request.url.path, request.url.query) if request.method == "GET" else _back(request)
        return RedirectResponse(f"/sign-in?onward={quote(asked)}", 303)
    told = tuple(map(_begun, detail.split("; ")))
    page = TroublePage(_TITLES.get(status, "That did not work"), told, _back(request))
    return show(request, "frame/trouble.html", page, status)


def _begun(sentence: str) -> str:
    """A sentence begins with a capital; the name of a field stays as the field is called."""
    return sentence if _FIELD.match(sentence) else sentence[:1].upper() + sentence[1:]


def _back(request: Request) -> str:
    came_from = urlsplit(request.headers.get("referer", ""))
    inside = came_from.netloc == request.headers.get("host") and came_from.path.startswith("/")
    return _address(came_from.path, came_from.query) if inside and not came_from.path.startswith("//") else "/"


def _address(path: str, query: str) -> str:
    whole = f"{path}?{query}" if query else path
    return whole if len(whole) <= LONGEST_ONWARD else path
