"""Somebody who calls at the door from some machine, with or without an enrolled device's key."""

import asyncio
from typing import Any

import httpx
from fastapi import FastAPI

from server.pages.frame.doorkeeper import KEY_COOKIE
from tests.security.device_key import DeviceKey

ON_THE_SHOP_NETWORK, ON_THE_SERVER = "192.0.2.7", "127.0.0.1"
PERSON_OF = {"welder": "P1", "fitter": "P2", "quality lead": "P3", "owner": "P4", "finisher": "P5", "office": "P6"}
PIN, PHRASE, KEY, TABLET = "481516", "four slow grey herons", "the-key-of-the-only-tablet", "TAB-1"


class Caller:
    """Sends requests in the same process and keeps the cookies it is given."""

    def __init__(self, app: FastAPI, key: str | None = None, machine: str = ON_THE_SHOP_NETWORK) -> None:
        self._transport = httpx.ASGITransport(app, raise_app_exceptions=False, client=(machine, 4711))
        self.cookies = httpx.Cookies({KEY_COOKIE: key} if key else {})
        self.address = "http://localhost" if machine == ON_THE_SERVER else "http://shop.example"

    def ask(self, method: str, path: str, **further: Any) -> httpx.Response:
        """Send one request."""

        async def once() -> httpx.Response:
            told: dict[str, Any] = {"transport": self._transport, "base_url": self.address, "cookies": self.cookies}
            async with httpx.AsyncClient(**told) as client:
                answer = await client.request(method, path, **further)
                self.cookies.update(client.cookies)
                return answer

        return asyncio.run(once())

    def show(self, invitation: str) -> httpx.Response:
        """Look at what an invitation is for."""
        return self.ask("POST", "/enrol/invitation", data={"invitation": invitation})

    def enrol(self, invitation: str, key: DeviceKey) -> httpx.Response:
        """Accept an invitation with a key of one's own, and prove it where it was taken."""
        answer = self.ask("POST", "/enrol", data={"invitation": invitation, "public_key": key.public})
        if answer.status_code == 303:
            assert self.prove(key).status_code == 204
        return answer

    def prove(self, key: DeviceKey) -> httpx.Response:
        """Sign a number of the house with a key."""
        number = self.ask("POST", "/device/number").json()["number"]
        return self.ask("POST", "/device/proof", json={"number": number, "signature": key.sign(number)})

    def try_in(self, person: str, secret: str, **further: Any) -> httpx.Response:
        """Try to sign in."""
        return self.ask("POST", "/sign-in", data={"person": person, "secret": secret} | further)


def signed_in(app: FastAPI, role: str) -> Caller:
    """Give the tablet with somebody of this role signed in on it."""
    caller = Caller(app, KEY)
    assert caller.try_in(PERSON_OF[role], PIN).status_code == 303
    return caller
