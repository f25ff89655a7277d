"""The whole application in process, around a record loaded from the story's shop."""

from collections.abc import Coroutine
from pathlib import Path
from typing import Any

import anyio
import httpx
from fastapi import FastAPI

from server.app import build_app
from server.record.book_of_lines import Record, now_ms
from server.settings import read_settings
from server.work.load_folder import load_folder
from server.work.set_pin import set_pin
from server.work.shop_folder import read_shop_folder
from tests.record.laid_out import open_laid_out
from tests.story.works import PINS, move_to_today


class ShopApp:
    """The application, its record, and browsers that ask it."""

    def __init__(self, data: Path) -> None:
        self.record = open_laid_out(data, _load_with_pins)
        self.app: FastAPI = build_app(read_settings(data, {}), self.record)

    def get(self, path: str, person: str | None = None, **more: Any) -> httpx.Response:
        """Ask for a page, signed in as somebody or as nobody."""
        return run(self._ask("GET", path, person, **more))

    def post(self, path: str, person: str | None = None, **more: Any) -> httpx.Response:
        """Send a form, signed in as somebody or as nobody."""
        return run(self._ask("POST", path, person, **more))

    async def _ask(self, method: str, path: str, person: str | None, **more: Any) -> httpx.Response:
        transport = httpx.ASGITransport(self.app, raise_app_exceptions=False)
        headers = {"accept": "text/html"} | more.pop("headers", {})
        async with httpx.AsyncClient(transport=transport, base_url="http://localhost", headers=headers) as browser:
            if person:
                told = {"person": person, "secret": PINS[person], "device": "desk"}
                assert (await browser.post("/sign-in", data=told)).status_code == 303
            return await browser.request(method, path, **more)


def _load_with_pins(record: Record, data: Path) -> None:
    move_to_today(data / "shop")
    load_folder(record, read_shop_folder(data / "shop"), now_ms())
    for person, pin in PINS.items():
        set_pin(record, person, pin, now_ms())


def run(asked: Coroutine[Any, Any, httpx.Response]) -> httpx.Response:
    """Run one question to its answer."""

    async def answered() -> httpx.Response:
        return await asked

    return anyio.run(answered)
