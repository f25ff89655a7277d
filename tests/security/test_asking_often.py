"""Strangers ask so often and no oftener; the shop's own devices and whoever is signed in are never made to wait."""

import pytest
from fastapi import FastAPI

from server.pages.frame import turnstile
from server.pages.frame.turnstile import Turnstile
from tests.security.caller import KEY, ON_THE_SERVER, PHRASE, Caller, signed_in


def test_a_burst_is_let_through_and_then_it_is_slow():
    """So many at once, then one each tenth of a second; another machine is not held up by it."""
    clock = [0.0]
    door = Turnstile(lambda: clock[0])
    assert [door.wait_s("a") for _ in range(turnstile.AT_ONCE)] == [0] * turnstile.AT_ONCE
    assert (door.wait_s("a"), door.wait_s("b")) == (1, 0)
    clock[0] += 1 / turnstile.PER_S
    assert [door.wait_s("a"), door.wait_s("a")] == [0, 1]


def test_what_is_remembered_is_bounded(monkeypatch: pytest.MonkeyPatch):
    """Machines that have not asked for as long as it takes to be at rest again are forgotten."""
    monkeypatch.setattr(turnstile, "_MOST_REMEMBERED", 5)
    clock = [0.0]
    door = Turnstile(lambda: clock[0])
    for number in range(20):
        clock[0] += 60
        door.wait_s(f"machine {number}")
    assert len(door._left) <= 5


def test_only_strangers_wait(app: FastAPI, monkeypatch: pytest.MonkeyPatch):
    """A stranger who asks too often is answered 429 with when to come again; a tablet and the owner go on."""
    monkeypatch.setattr(turnstile, "AT_ONCE", 3)
    stranger = Caller(app)
    answers = [stranger.ask("GET", "/livez") for _ in range(6)]
    assert {each.status_code for each in answers[:3]} == {200}
    assert answers[-1].status_code == 429
    assert answers[-1].headers["retry-after"] == "1"
    assert "x-content-type-options" in answers[-1].headers
    for known in (Caller(app, KEY), signed_in(app, "owner"), Caller(app, machine=ON_THE_SERVER)):
        assert [known.ask("GET", "/livez").status_code for _ in range(6)] == [200] * 6


def test_guessing_phrases_is_slowed_too(app: FastAPI, monkeypatch: pytest.MonkeyPatch):
    """Tries at the door from a strange machine count like everything else it asks."""
    monkeypatch.setattr(turnstile, "AT_ONCE", 2)
    monkeypatch.setattr(turnstile, "PER_S", 0.01)
    stranger = Caller(app)
    assert [stranger.try_in("P9", PHRASE).status_code for _ in range(3)] == [401, 401, 429]
