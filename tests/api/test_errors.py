"""Every error has one form for programs, and a page for people; what nobody foresaw gives nothing away."""

import asyncio
import logging

import httpx
import pytest
from fastapi import APIRouter, HTTPException
from fastapi.responses import HTMLResponse
from starlette.requests import Request

from server.api.app import make_app
from server.record.book_of_lines import Record
from server.work.refusal import NotSignedIn, NotThere, NotYours, Refusal

router = APIRouter()
RAISED: dict[str, Exception] = {
    "not-signed-in": NotSignedIn("sign in"),
    "not-yours": NotYours("for the owner"),
    "not-there": NotThere("no such frame"),
    "refused": Refusal("reason: too short", "role: another is needed"),
    "teapot": HTTPException(418, "short and stout", {"X-Spout": "yes"}),
    "unforeseen": RuntimeError("the secret is 12345"),
}


@router.get("/raise/{what}")
def raise_it(what: str) -> None:
    """Raise what is asked for."""
    raise RAISED[what]


@router.get("/number/{number}")
def number(number: int) -> int:
    """Give a number back."""
    return number


@router.get("/sought")
def sought(name: str) -> str:
    """Give a name back."""
    return name


def page(request: Request, status: int, detail: str) -> HTMLResponse:
    return HTMLResponse(f"<p>{detail}</p>", status)


def ask(record: Record, path: str, accept: str = "*/*", method: str = "GET") -> httpx.Response:
    transport = httpx.ASGITransport(make_app(record, routers=(router,), page=page), raise_app_exceptions=False)

    async def once() -> httpx.Response:
        async with httpx.AsyncClient(transport=transport, base_url="http://shop") as client:
            return await client.request(method, path, headers={"accept": accept})

    return asyncio.run(once())


@pytest.mark.parametrize(
    ("what", "status", "detail"),
    [
        ("not-signed-in", 401, "sign in"),
        ("not-yours", 403, "for the owner"),
        ("not-there", 404, "no such frame"),
        ("refused", 409, "reason: too short; role: another is needed"),
        ("teapot", 418, "short and stout"),
    ],
)
def test_each_refusal_has_its_status_and_its_words(record: Record, what: str, status: int, detail: str):
    """A refusal in shop words becomes a problem with the status that belongs to it."""
    answer = ask(record, f"/raise/{what}")
    assert (answer.status_code, answer.json()["status"], answer.json()["detail"]) == (status, status, detail)
    assert answer.headers["content-type"] == "application/problem+json"


def test_headers_of_an_error_are_kept(record: Record):
    """What an error says in headers is said with the problem."""
    assert ask(record, "/raise/teapot").headers["x-spout"] == "yes"


def test_the_unforeseen_gives_nothing_away(record: Record, caplog: pytest.LogCaptureFixture):
    """An error nobody foresaw is a problem without its text, which stands in the log."""
    with caplog.at_level(logging.ERROR):
        answer = ask(record, "/raise/unforeseen")
    assert answer.status_code == 500
    assert "12345" not in answer.text
    assert "12345" in caplog.text


def test_a_person_gets_a_page(record: Record):
    """Asked for by a browser, the same error is a page; a program under /api gets the problem whatever it accepts."""
    answer = ask(record, "/raise/not-there", "text/html,*/*")
    assert (answer.status_code, answer.text) == (404, "<p>no such frame</p>")
    answer = ask(record, "/api/lines/nobody", "text/html,*/*")
    assert answer.headers["content-type"] == "application/problem+json"


def test_a_field_at_fault_is_named(record: Record):
    """A parameter that is none is answered with field, found and expected."""
    answer = ask(record, "/number/seven")
    assert answer.status_code == 422
    (named,) = answer.json()["errors"]
    assert (named["field"], named["found"]) == ("path.number", "'seven'")
    assert "integer" in named["expected"]


def test_a_person_is_told_in_words_of_the_shop(record: Record):
    """What the framework turns away reaches a person without its words: the field, what was found, what to do next."""
    wrong = ask(record, "/number/seven", "text/html").text
    nowhere = ask(record, "/nowhere", "text/html").text
    method = ask(record, "/number/7", "text/html", "PUT").text
    empty = ask(record, "/sought", "text/html").text

    assert empty == "<p>name: nothing was given; fill it in and send it again</p>"
    assert wrong.startswith("<p>number: found 'seven'; ")
    assert "there is no page at this address; check how it is written" in nowhere
    assert "takes only what its form sends; go back" in method
    assert not any(words in nowhere + method for words in ("Not Found", "Not Allowed"))


@pytest.mark.parametrize(("method", "path", "status"), [("GET", "/nowhere", 404), ("PUT", "/api/deliveries", 405)])
def test_unknown_addresses_and_methods_are_problems_too(record: Record, method: str, path: str, status: int):
    """What the framework itself refuses has the same form."""
    answer = ask(record, path, method=method)
    assert answer.status_code == status
    assert answer.json()["status"] == status
