"""Every address says who it is for, and every role is sent to every address to see whether that holds."""

import re
from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

import pytest
from fastapi import FastAPI
from fastapi.routing import iter_route_contexts

from tests.security.caller import KEY, PERSON_OF, Caller, signed_in

PUBLIC = {
    "/": "sends everybody to where their day starts, and strangers to the door",
    "/sign-in": "the door itself",
    "/sign-in/badge": "the door itself, for a badge",
    "/sign-in/passkey": "the door itself, for a passkey",
    "/sign-in/passkey/ask": "a challenge to prove a passkey by; names nobody",
    "/hand-over": "ends one's own session, if there is one",
    "/device/number": "a number to sign; names nobody",
    "/device/proof": "the tablet's own signature is what opens it",
    "/enrol": "the one-time invitation is what opens it",
    "/enrol/invitation": "says what an invitation is for to whoever holds it",
    "/assets/{digest}/{name:path}": "styles, scripts and marks, the same for every shop",
    "/bench/app/{digest}/{name}": "the tablet's scripts, the same for every shop",
    "/sw.js": "the tablet's scripts, the same for every shop",
    "/api/openapi.json": "the form of the addresses, the same for every shop",
    "/livez": "says that the process answers, and nothing else",
    "/readyz": "names parts that fail; sentences only for the owner",
    "/procedures": "anybody in the shop may read how something is welded",
    "/procedures/{name}/{revision}": "as the list",
    "/procedures/{name}/{old}/against/{new}": "as the list",
    "/calculators": "formulas, nothing of the shop's",
    "/calculators/{called}": "formulas, nothing of the shop's",
    "/calculators/{called}/result": "formulas, nothing of the shop's",
}
"""Addresses that ask for nobody, each with why."""

BY_ITSELF = {"/metrics": ("owner",)}
"""Addresses that look for themselves, since the server's own screen is let in as well."""

EVERYBODY = tuple(PERSON_OF)


class Address(NamedTuple):
    """One method of one address, and the roles it declares; none where it is public or has not said."""

    method: str
    path: str
    roles: tuple[str, ...] | None
    tablet_alone: bool = False

    @property
    def filled(self) -> str:
        """The path with a word in every gap."""
        return re.sub(r"\{[^}]+\}", "none", self.path)


def asked(dependant: Any) -> Iterator[Callable[..., Any]]:
    """Give everything an address depends on."""
    for each in dependant.dependencies if dependant else ():
        yield each.call
        yield from asked(each)


def addresses(app: FastAPI) -> list[Address]:
    """Read from the routes what each asks for."""
    found = []
    for route in iter_route_contexts(app.routes):
        calls = list(asked(getattr(route, "dependant", None)))
        roles = [tuple(call.needed_roles) or EVERYBODY for call in calls if hasattr(call, "needed_roles")]
        words = [call.asks_for for call in calls if hasattr(call, "asks_for")]
        declared = BY_ITSELF.get(str(route.path)) or (roles[0] if roles else EVERYBODY if words else None)
        tablet = any("device" in each for each in words)
        found += [Address(method, str(route.path), declared, tablet) for method in sorted(route.methods or ())]
    return found


def test_every_address_says_who_it_is_for(app: FastAPI):
    """No address is without a declared need unless it is on the public list, and nothing on that list is guarded."""
    undeclared = {each.path for each in addresses(app) if each.roles is None}
    assert undeclared - set(PUBLIC) == set()
    assert {each.path for each in addresses(app) if each.roles is not None} & set(PUBLIC) == set()


def test_an_address_that_says_nothing_is_found(app: FastAPI):
    """An address added without a word about who it is for is named."""
    app.add_api_route("/forgotten", lambda: "hello")
    assert {each.path for each in addresses(app) if each.roles is None} - set(PUBLIC) == {"/forgotten"}


@pytest.mark.parametrize("who", ["a stranger", "a tablet", *PERSON_OF])
def test_every_role_at_every_address(app: FastAPI, who: str):
    """Who is not meant is answered 401 or 403 everywhere, and who is meant nowhere."""
    caller = signed_in(app, who) if who in PERSON_OF else Caller(app, KEY if who == "a tablet" else None)
    wrong = []
    for address in addresses(app):
        if address.path == "/hand-over":
            continue
        status = caller.ask(address.method, address.filled).status_code
        meant = address.roles is None or who in address.roles or (who == "a tablet" and address.tablet_alone)
        expected = status not in (401, 403) if meant else status in ((403,) if who in PERSON_OF else (401, 403))
        if (status >= 500 and status != 503) or not expected:
            wrong.append((address.method, address.path, status))
    assert wrong == []
