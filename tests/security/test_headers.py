"""The headers a browser is told to be careful by stand on every answer: pages, files, errors and refusals."""

import pytest
from fastapi import FastAPI

from server.pages.frame.assets import asset
from tests.security.caller import KEY, Caller, signed_in

CAREFUL = {
    "x-content-type-options": "nosniff",
    "referrer-policy": "same-origin",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
}
PARTS = ("default-src 'self'", "object-src 'none'", "base-uri 'none'", "frame-ancestors 'none'", "form-action 'self'")


def broken() -> None:
    """Fail as nobody foresaw."""
    raise ZeroDivisionError("a word from inside")


ANSWERS = {
    "a page": ("GET", "/sign-in", 200),
    "a file": ("GET", asset("frame/sheet.css"), 200),
    "a form of the addresses": ("GET", "/api/openapi.json", 200),
    "a redirect": ("GET", "/", 303),
    "a refusal": ("GET", "/desk", 401),
    "nothing there": ("GET", "/api/nothing", 404),
    "not this way": ("DELETE", "/sign-in", 405),
    "a form not filled in": ("POST", "/sign-in", 422),
    "something unforeseen": ("GET", "/broken", 500),
}


@pytest.mark.parametrize("called", ANSWERS)
@pytest.mark.parametrize("scheme", ["http", "https"])
def test_every_answer_is_careful(app: FastAPI, called: str, scheme: str):
    """Pages, files, redirects and every kind of error carry the headers, and by HTTPS the word to stay with it."""
    app.add_api_route("/broken", broken)
    method, path, status = ANSWERS[called]
    caller = Caller(app)
    caller.address = f"{scheme}://shop.example"
    answer = caller.ask(method, path, headers={"accept": "text/html"} if called == "something unforeseen" else {})
    assert answer.status_code == status
    assert {name: answer.headers.get(name) for name in CAREFUL} == CAREFUL
    policy = [part.strip() for part in answer.headers["content-security-policy"].split(";")]
    assert set(PARTS) <= set(policy)
    assert "unsafe" not in answer.headers["content-security-policy"]
    assert ("max-age=31536000; includeSubDomains" in answer.headers.get("strict-transport-security", "")) is (
        scheme == "https"
    )
    assert "a word from inside" not in answer.text


def test_a_refusal_of_another_site_is_careful_too(app: FastAPI):
    """What is turned away at the door carries them as well."""
    answer = Caller(app).ask("POST", "/sign-in", headers={"sec-fetch-site": "cross-site"})
    assert answer.status_code == 403
    assert answer.headers["x-content-type-options"] == "nosniff"


def test_pages_are_not_kept_by_the_browser(app: FastAPI):
    """A page somebody signed in has seen is not there for the next one who presses back."""
    assert signed_in(app, "owner").ask("GET", "/history").headers["cache-control"] == "no-store"


def test_cookies_are_for_the_server_only(app: FastAPI):
    """By HTTPS each cookie is bound to this host, to HTTPS, to this site, and no script reads it."""
    caller = Caller(app, KEY)
    caller.address = "https://shop.example"
    caller.cookies.set("__Host-strawline_key", KEY)
    told = caller.try_in("P1", "481516").headers.get_list("set-cookie")
    assert any("session" in each for each in told)
    for cookie in map(str.lower, told):
        assert cookie.startswith("__host-strawline_")
        assert all(word in cookie for word in ("httponly", "secure", "samesite=strict", "path=/"))
        assert "domain" not in cookie
