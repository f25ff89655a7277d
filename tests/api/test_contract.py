"""Every address for programs answers only as its form says, whatever it is sent: no failure, nothing undocumented."""

import math
from collections.abc import Iterator
from typing import Any

import pytest
import schemathesis
from fastapi import FastAPI
from hypothesis import HealthCheck, given, settings
from hypothesis.errors import Unsatisfiable
from schemathesis import GenerationMode
from schemathesis.checks import not_a_server_error
from schemathesis.specs.openapi.checks import (
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
    status_code_conformance,
)

from server.pages.frame.doorkeeper import COOKIE, KEY_COOKIE
from server.record.book_of_lines import Record
from tests.security.caller import KEY, signed_in
from tests.security.conftest import open_shop

pytestmark = pytest.mark.filterwarnings("ignore::DeprecationWarning")
_SLOW = (HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.function_scoped_fixture)
# That a form which fits is also accepted is not asked: what belongs together the form does not say, the refusal does.
_ASKED = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
]


@pytest.fixture(scope="module")
def owners(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[FastAPI, Record, str]]:
    """The application, and the cookies of the owner signed in on an enrolled tablet."""
    app, record = open_shop(tmp_path_factory.mktemp("contract"))
    token = signed_in(app, "owner").cookies[COOKIE]
    yield app, record, f"{COOKIE}={token}; {KEY_COOKIE}={KEY}"
    record.close()


@pytest.fixture(scope="module")
def form(owners: tuple[FastAPI, Record, str]) -> Any:
    """The form of the addresses as the application gives it."""
    return schemathesis.openapi.from_asgi("/api/openapi.json", owners[0])


def try_each(form: Any, cookies: str, most: int) -> int:
    """Send each address drawn requests, half of them as its form asks and half not so, and give how many addresses."""
    count = 0
    for found in form.get_all_operations():
        count += 1
        for mode in (GenerationMode.POSITIVE, GenerationMode.NEGATIVE):
            try_one(found.ok(), mode, cookies, most // 2)
    return count


def try_one(operation: Any, mode: GenerationMode, cookies: str, most: int) -> None:
    """Send one address drawn requests; an answer its form does not have, or a failure, is raised with the request."""

    @settings(max_examples=most, deadline=None, derandomize=True, database=None, suppress_health_check=_SLOW)
    @given(case=operation.as_strategy(generation_mode=mode))
    def send(case: Any) -> None:
        answer = case.call_and_validate(headers={"Cookie": cookies}, checks=_ASKED)
        assert answer.status_code not in (401, 403), "turned away at the door, so nothing was tried"

    try:
        send()
    except Unsatisfiable:
        # An address without any value to get wrong cannot be asked wrongly.
        assert mode is GenerationMode.NEGATIVE


def test_fifty_of_each(form: Any, owners: tuple[FastAPI, Record, str]):
    """Fifty drawn requests to each address are answered as its form says, and never by a failure."""
    assert try_each(form, owners[2], 50) >= 10


@pytest.mark.long
def test_a_thousand_of_each(form: Any, owners: tuple[FastAPI, Record, str]):
    """A thousand drawn requests to each address are answered as its form says, and never by a failure."""
    assert try_each(form, owners[2], 1000) >= 10


def test_a_planted_failure_is_found():
    """The same run on an address that fails for some numbers does not pass."""
    app = FastAPI()
    app.add_api_route("/planted/{number}", planted)
    broken = schemathesis.openapi.from_asgi("/openapi.json", app)
    with pytest.raises(Exception, match="math domain error"):
        try_each(broken, "", 50)


def planted(number: int) -> float:
    """Fail for what is not above zero."""
    return math.log(number)
