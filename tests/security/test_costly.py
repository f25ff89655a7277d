"""What makes the machine work for seconds is asked for two at a time, and the page of security names it."""

import re
from pathlib import Path

import pytest
from fastapi import FastAPI
from fastapi.routing import iter_route_contexts

from server.work import in_turn
from server.work.in_turn import Turns, costly
from tests.security.caller import Caller, signed_in
from tests.security.test_who_may_what import asked

PAGE = Path(__file__).resolve().parents[2] / "docs" / "security.md"


def named() -> set[str]:
    """Give the addresses the page names under its heading."""
    _, _, after = PAGE.read_text(encoding="utf-8").partition("## What costs the machine most\n")
    return set(re.findall(r"`((?:GET|POST) /\S+)`", after.partition("\n## ")[0]))


def held(app: FastAPI) -> set[str]:
    """Give the addresses that ask for a turn."""
    return {
        f"{method} {each.path}"
        for each in iter_route_contexts(app.routes)
        if costly in asked(getattr(each, "dependant", None))
        for method in each.methods or ()
    }


def test_the_page_names_every_costly_address(app: FastAPI):
    """The list people read and the addresses that wait their turn are the same."""
    assert len(named()) > 8
    assert held(app) == named()


@pytest.fixture
def busy(monkeypatch: pytest.MonkeyPatch) -> Turns:
    """A machine whose one turn is taken, and nobody's patience is long."""
    turns = Turns(1, 0.1)
    turns._free.acquire()
    monkeypatch.setattr(in_turn, "TURNS", turns)
    return turns


def test_a_busy_machine_says_so(app: FastAPI, busy: Turns):
    """The answer is 503 with when to come again; what costs little is answered beside it; then there is a turn."""
    lead: Caller = signed_in(app, "quality lead")
    answer = lead.ask("GET", "/charts")
    assert (answer.status_code, answer.headers["retry-after"]) == (503, "5")
    assert "Ask again in a moment" in answer.text
    assert lead.ask("GET", "/desk").status_code == 200
    busy.give_back()
    assert [lead.ask("GET", "/charts").status_code for _ in range(2)] == [200, 200]


def test_who_may_not_open_it_takes_no_turn(app: FastAPI, busy: Turns):
    """A stranger is sent to the door at once, whether the machine is busy or not."""
    assert Caller(app).ask("GET", "/charts").status_code == 401
