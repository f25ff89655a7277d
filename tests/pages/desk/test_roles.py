"""Who may open what: read from the routes themselves, every screen of the desk turns away who may not decide."""

import re
from collections.abc import Iterator

import httpx
import pytest
from fastapi.routing import APIRoute

from server.pages.audit import route as audit
from server.pages.charts import checks, faults
from server.pages.charts import route as charts
from server.pages.desk import route as desk
from server.pages.gate import route as gate
from server.pages.lists import route as lists
from server.pages.papers import concessions, nonconformities
from server.pages.suspects import route as suspects
from server.record.book_of_lines import now_ms
from server.work.set_pin import set_pin
from tests.browser.serving import free_port, served
from tests.story.works import PINS
from tests.work.small_shop import open_shop

ROOMS = (desk, audit, gate, suspects, nonconformities, concessions, charts, faults, checks, lists)
ROUTES = [route for room in ROOMS for route in room.router.routes if isinstance(route, APIRoute)]
DESK = [(method, route.path) for route in ROUTES for method in sorted(route.methods or ())]


@pytest.fixture(scope="module")
def door(tmp_path_factory: pytest.TempPathFactory) -> Iterator[httpx.Client]:
    folder = tmp_path_factory.mktemp("roles")
    record = open_shop(folder)
    for person, pin in PINS.items():
        set_pin(record, person, pin, now_ms())
    with served(record, folder, free_port()) as address, httpx.Client(base_url=address, timeout=30) as client:
        yield client
    record.close()


def status(door: httpx.Client, person: str | None, method: str, path: str) -> int:
    door.cookies.clear()
    if person:
        signed = door.post("/sign-in", data={"person": person, "secret": PINS[person], "device": "desk"})
        assert signed.status_code == 303, signed.text
    filled = re.sub(r"\{name\}", "findings", path)
    filled = re.sub(r"\{frame\}", "SW-1", re.sub(r"\{(joint|number|check:path)\}", "A", filled))
    return door.request(method, filled, headers={"accept": "text/html"}).status_code


@pytest.mark.parametrize(("method", "path"), DESK)
def test_a_screen_of_the_desk_is_for_those_who_decide(door: httpx.Client, method: str, path: str):
    """Nobody signed in is 401 and a welder 403 at every address; a lead and an owner get past the door."""
    assert status(door, None, method, path) in (303, 401)
    assert status(door, "WEL", method, path) == 403
    assert status(door, "LEA", method, path) not in (303, 401, 403)
    assert status(door, "OWN", method, path) not in (303, 401, 403)
