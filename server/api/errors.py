"""One table from what can go wrong to the problem a program is told; nothing leaves the service without a word."""

import logging
from collections.abc import Callable, Mapping
from contextlib import suppress
from dataclasses import dataclass, field
from http import HTTPStatus
from typing import Any

from fastapi import FastAPI, Request, Response
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException

from server.api.problem import problem_response
from server.record.troubles import NoRoom, RecordClosed, RecordTrouble
from server.work.in_turn import ComeAgain
from server.work.refusal import NotSignedIn, NotThere, NotYours, Refusal, Unreadable

_LOG = logging.getLogger(__name__)
_REFUSALS: dict[type[Refusal], int] = {NotSignedIn: 401, NotYours: 403, NotThere: 404, Unreadable: 422, ComeAgain: 503}
_SOON = {"Retry-After": "5"}
_OF_THE_FRAMEWORK = {
    404: "there is no page at this address; check how it is written, or begin again from History",
    405: "this address takes only what its form sends; go back to the page the form stands on",
}
_NO_FILE = "expected a file; choose one and send it again"
_UNFORESEEN = "something failed that should not have; nothing was taken; the log of the service says what it was"

Page = Callable[[Request, int, str], Response]
"""Makes the page that tells a person the same as the problem tells a program."""


@dataclass(frozen=True, slots=True)
class Told:
    """What is said of an error: the status, the words, and the fields at fault."""

    status: int
    detail: str
    headers: Mapping[str, str] | None = None
    errors: list[dict[str, str]] = field(default_factory=list)


def told_of(error: Exception) -> Told:
    """Give what is said of an error; of one that nobody foresaw, nothing that could give anything away."""
    if isinstance(error, Refusal):
        status = next((_REFUSALS[kind] for kind in type(error).__mro__ if kind in _REFUSALS), 409)
        return Told(status, str(error), _SOON if status == 503 else None)
    if isinstance(error, RecordTrouble):
        # What mends itself may be tried again soon; a closed record has to be looked after first.
        retry = None if isinstance(error, RecordClosed) else _SOON
        return Told(507 if isinstance(error, NoRoom) else 503, str(error), retry)
    if isinstance(error, RequestValidationError):
        named = [_named(each) for each in error.errors()]
        return Told(422, "; ".join(_asked_for(each) for each in named), errors=named)
    if isinstance(error, HTTPException):
        plain = error.detail == HTTPStatus(error.status_code).phrase
        words = _OF_THE_FRAMEWORK.get(error.status_code, error.detail) if plain else error.detail
        return Told(error.status_code, str(words), error.headers)
    return Told(500, _UNFORESEEN)


def answer_errors(app: FastAPI, page: Page | None = None) -> None:
    """Let the app answer every error with a problem, or with the page where a person asked for one."""

    async def tell(request: Request, error: Exception) -> Response:
        told = told_of(error)
        if told.status == 500:
            _LOG.error("unforeseen on %s %s", request.method, request.url.path, exc_info=error)
        if page and not request.url.path.startswith("/api/") and "text/html" in request.headers.get("accept", ""):
            # The page asks the record who is there, too; where that cannot be asked the plain form is left.
            with suppress(RecordTrouble):
                return page(request, told.status, told.detail)
        return problem_response(told.status, told.detail, headers=told.headers, errors=told.errors)

    for kind in (Refusal, RecordTrouble, HTTPException, RequestValidationError, Exception):
        app.add_exception_handler(kind, tell)


def _asked_for(named: Mapping[str, str]) -> str:
    """Where in the request it stood (`body`, `query`) helps a program, which has it in `errors`, and nobody else."""
    field = named["field"].partition(".")[2] or named["field"]
    if named["found"] == "missing":
        return f"{field}: nothing was given; fill it in and send it again"
    return f"{field}: found {named['found']}; {named['expected']}"


def _named(error: Any) -> dict[str, str]:
    return {
        "field": ".".join(map(str, error["loc"])),
        "found": "missing" if error["type"] == "missing" else ascii(error.get("input"))[:60],
        "expected": _NO_FILE if "UploadFile" in str(error["msg"]) else str(error["msg"]),
    }
