"""Requests drawn from the form of the addresses, half of them as it asks, and every answer held to it."""

import math
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import schemathesis
from fastapi import FastAPI
from hypothesis import HealthCheck, given, settings
from hypothesis import seed as seeded
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
from tests.security.caller import KEY, signed_in
from tests.security.conftest import open_shop

_SLOW = (HealthCheck.too_slow, HealthCheck.filter_too_much, HealthCheck.function_scoped_fixture)
# That a form which fits is also accepted is not asked: what belongs together the form does not say, the refusal does.
_ASKED = [
    not_a_server_error,
    status_code_conformance,
    content_type_conformance,
    response_headers_conformance,
    response_schema_conformance,
]


@contextmanager
def asked_shop() -> Iterator[tuple[Any, str]]:
    """Give the form of a new shop's addresses, and the cookies of its owner signed in on an enrolled tablet."""
    with TemporaryDirectory() as name:
        app, record = open_shop(Path(name))
        cookies = f"{COOKIE}={signed_in(app, 'owner').cookies[COOKIE]}; {KEY_COOKIE}={KEY}"
        try:
            yield schemathesis.openapi.from_asgi("/api/openapi.json", app), cookies
        finally:
            # What is asked in process starts them, and nobody else would end them.
            for thread in (app.state.judge, app.state.caretaker):
                if thread.is_alive():
                    thread.stop()
            record.close()


def try_each(form: Any, cookies: str, most: int, seed: int = 0) -> int:
    """Send each address drawn requests, half of them as its form asks and half not so, and give how many addresses."""
    count = 0
    for found in form.get_all_operations():
        count += 1
        for mode in (GenerationMode.POSITIVE, GenerationMode.NEGATIVE):
            try_one(found.ok(), mode, cookies, most // 2, seed)
    return count


def try_one(operation: Any, mode: GenerationMode, cookies: str, most: int, seed: int) -> None:
    """Send one address drawn requests; an answer its form does not have, or a failure, is raised with the request."""

    @seeded(seed)
    @settings(max_examples=most, deadline=None, database=None, suppress_health_check=_SLOW)
    @given(case=operation.as_strategy(generation_mode=mode))
    def send(case: Any) -> None:
        answer = case.call_and_validate(headers={"Cookie": cookies}, checks=_ASKED)
        assert answer.status_code not in (401, 403), "turned away at the door, so nothing was tried"

    try:
        send()
    except Unsatisfiable:
        # An address without any value to get wrong cannot be asked wrongly.
        assert mode is GenerationMode.NEGATIVE


def planted_failure_is_found() -> bool:
    """Say whether the same requests find an address that fails for some numbers."""
    app = FastAPI()
    app.add_api_route("/planted/{number}", planted)
    try:
        try_each(schemathesis.openapi.from_asgi("/openapi.json", app), "", 50)
    except Exception as found:
        return "math domain error" in str(found)
    return False


def planted(number: int) -> float:
    """Fail for what is not above zero."""
    return math.log(number)
