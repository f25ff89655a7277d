"""What another site makes a browser send is turned away before anything looks at it."""

import pytest
from fastapi import FastAPI

from tests.security.caller import Caller, signed_in

OURS, THEIRS = "http://shop.example", "http://shop.example.evil.example"
SITES = ("same-origin", "none", "same-site", "cross-site", None)
ORIGINS = (OURS, THEIRS, "null", None)


def from_us(site: str | None, origin: str | None) -> bool:
    """The rule as a table says it: the browser's word first, the origin only where it said nothing."""
    return site in ("same-origin", "none") if site else origin in (OURS, None)


@pytest.mark.parametrize("method", ["GET", "POST", "PUT", "PATCH", "DELETE"])
def test_the_table_of_sites_and_origins(app: FastAPI, method: str):
    """Of every site value with every origin, only what our own pages or no page sent passes; reading always does."""
    caller, wrong = Caller(app), []
    for site in SITES:
        for origin in ORIGINS:
            told = {"sec-fetch-site": site, "origin": origin}
            answer = caller.ask(method, "/hand-over", headers={name: value for name, value in told.items() if value})
            turned_away = answer.status_code == 403 and "another site" in answer.text
            if turned_away is (method == "GET" or from_us(site, origin)):
                wrong.append((site, origin, answer.status_code))
    assert wrong == []


def test_a_stranger_site_ends_nobodys_session(app: FastAPI):
    """A hand-over sent by another site with the browser's cookies leaves the session as it was."""
    caller = signed_in(app, "owner")
    caller.ask("POST", "/hand-over", headers={"sec-fetch-site": "cross-site"})
    assert caller.ask("GET", "/desk").status_code == 200
    caller.ask("POST", "/hand-over", headers={"sec-fetch-site": "same-origin"})
    assert caller.ask("GET", "/desk").status_code == 401
