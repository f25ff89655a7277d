"""The bench's shop, loaded once for a module's proofs, and a visitor who speaks HTTP to the application around it."""

import asyncio
from collections.abc import Iterator
from typing import Any

import httpx
import pytest

from server.app import build_app
from server.record.book_of_lines import Record
from server.settings import Settings
from tests.pages.bench.bench_shop import PIN, open_shop


class Visit:
    """Sends requests in the same process, with the cookies it was given; a tablet as the server sees it."""

    def __init__(self, record: Record, settings: Settings) -> None:
        self._transport = httpx.ASGITransport(build_app(settings, record), raise_app_exceptions=False)
        self._cookies = httpx.Cookies()
        self.folder = settings.data_folder

    def ask(self, method: str, path: str, **further: Any) -> httpx.Response:
        """Send one request."""

        async def once() -> httpx.Response:
            told: dict[str, Any] = {"transport": self._transport, "cookies": self._cookies}
            told["base_url"] = "http://localhost"
            async with httpx.AsyncClient(**told) as client:
                answer = await client.request(method, path, **further)
                self._cookies.update(client.cookies)
                return answer

        return asyncio.run(once())

    def forget(self) -> None:
        """Drop every cookie, as somebody who was never here."""
        self._cookies = httpx.Cookies()

    def sign_in(self, person: str, device: str = "TAB-A") -> None:
        """Sign in by PIN."""
        form = {"person": person, "secret": PIN, "device": device, "onward": "/bench"}
        assert self.ask("POST", "/sign-in", data=form).status_code == 303


@pytest.fixture(scope="module")
def bench_record(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Record]:
    """The shop with two frames in work."""
    record = open_shop(tmp_path_factory.mktemp("bench"))
    yield record
    record.close()


@pytest.fixture
def visit(bench_record: Record, tmp_path_factory: pytest.TempPathFactory) -> Visit:
    """Somebody who has not signed in yet."""
    return Visit(bench_record, Settings(data_folder=tmp_path_factory.mktemp("data")))
