"""A person may hold several roles; what they do is told in the one they acted in, and in none they do not hold."""

import pytest
from fastapi import FastAPI

from server.record.book_of_lines import Record, now_ms
from server.record.written import Written
from server.work.set_pin import set_pin
from server.work.telling import told_line
from tests.security.caller import KEY, Caller

WHO, FIRST, SECOND = "P9", "583920", "940857"


@pytest.fixture
def both(app: FastAPI, record: Record) -> Caller:
    """The tablet with somebody signed in who is welder and quality lead."""
    told = {"kind": "person", "id": WHO, "name": "Ira Sten", "roles": ["welder", "quality lead"]}
    record.write(lambda _: Written(lambda _: None, lines=(told_line(told, now_ms()),))).result()
    set_pin(record, WHO, FIRST, now_ms())
    tablet = Caller(app, KEY)
    assert tablet.try_in(WHO, FIRST).status_code == 303
    return tablet


def change_pin(caller: Caller, present: str, new: str) -> None:
    told = {"kind": "pin", "present": present, "new": new, "again": new}
    assert caller.ask("POST", "/own/secret", data=told).status_code == 303


def last_role(record: Record) -> str | None:
    with record.reads() as reads:
        return list(reads.registers().door_changes.values())[-1].role


def test_the_record_says_in_which_role_they_acted(both: Caller, record: Record):
    """The same person doing the same thing is told as welder, then as quality lead once they went on as that."""
    change_pin(both, FIRST, SECOND)
    assert last_role(record) == "welder"
    assert both.ask("POST", "/own/role", data={"role": "quality lead"}).status_code == 303
    change_pin(both, SECOND, FIRST)
    assert last_role(record) == "quality lead"
    assert "Ira Sten, quality lead" in both.ask("GET", "/own").text


def test_a_role_not_held_is_refused(both: Caller, record: Record):
    """Nobody goes on in a role they do not hold, and the one before stays."""
    answer = both.ask("POST", "/own/role", data={"role": "owner"})
    assert (answer.status_code, "does not hold the role" in answer.text) == (409, True)
    assert both.ask("GET", "/people").status_code == 403
    change_pin(both, FIRST, SECOND)
    assert last_role(record) == "welder"


def test_who_holds_one_is_offered_none(app: FastAPI):
    """A person of one role is not asked which."""
    caller = Caller(app, KEY)
    caller.try_in("P1", "481516")
    assert "Which role you act in" not in caller.ask("GET", "/own").text
