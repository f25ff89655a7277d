"""While PostgreSQL is away the door says so in words, and whoever watches the service still gets an answer."""

import httpx
import pytest

from server.record.book_of_lines import Record
from server.record.troubles import DatabaseAway
from tests.pages.shop_app import ShopApp, run
from tests.story.works import PINS


def _away(*_: object, **__: object) -> None:
    raise DatabaseAway("connection refused")


def test_a_database_away_is_told_and_the_process_still_answers(shop_app: ShopApp, monkeypatch: pytest.MonkeyPatch):
    """Alive it is, ready it is not and says which part; a page says why and when to come again, the door too."""
    told: dict[str, httpx.Response] = {}

    async def asked() -> httpx.Response:
        """Sign in, let the database go away, and ask; at last as somebody who is not signed in."""
        transport = httpx.ASGITransport(shop_app.app, raise_app_exceptions=False)
        html = {"accept": "text/html"}
        async with httpx.AsyncClient(transport=transport, base_url="http://localhost", headers=html) as browser:
            await browser.post("/sign-in", data={"person": "OWN", "secret": PINS["OWN"], "device": "desk"})
            for name in ("reads", "condition"):
                monkeypatch.setattr(Record, name, _away)
            for address in ("/livez", "/readyz", "/history"):
                told[address] = await browser.get(address)
            browser.cookies.clear()
            return await browser.get("/sign-in")

    door = run(asked())
    assert (told["/livez"].status_code, told["/livez"].json()) == (200, {"alive": True})
    assert (told["/readyz"].status_code, told["/readyz"].json()["failing"]) == (503, ["record"])
    assert told["/history"].headers["retry-after"] == "5"
    for each in (told["/history"], door):
        assert (each.status_code, "cannot be reached: connection refused" in each.text) == (503, True)
    monkeypatch.undo()
    assert shop_app.get("/history", "OWN").status_code == 200
