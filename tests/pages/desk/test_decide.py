"""The sheet on which a decision is signed: what stood on it is sent back with it."""

import re
from html import unescape
from pathlib import Path

import httpx

from tests.pages.shop_app import ShopApp
from tests.story.log import Tablet
from tests.story.works import PINS
from tests.work.small_shop import a_pass, send

KEY = "SW-1/A#1|purge-o2"


def shown(app: ShopApp) -> dict[str, str]:
    """What the sheet carries unseen, as a browser would send it back."""
    page = app.get("/desk/decide?key=SW-1/A%231%7Cpurge-o2", "LEA").text
    found = re.findall(r'<input type="hidden" name="(\w+)" value="([^"]*)">', page)
    return {name: unescape(value) for name, value in found}


def signed(app: ShopApp, carried: dict[str, str], choice: str, reason: str) -> httpx.Response:
    told = carried | {"choice": choice, "reason": reason, "secret": PINS["LEA"]}
    return app.post("/desk/decide", "LEA", data=told)


def test_two_sheets_open_at_once(tmp_path: Path):
    """The one signed second is refused, names the first, keeps its reason, and can be signed from what it shows now."""
    app = ShopApp(tmp_path)
    send(app.record, a_pass(Tablet("SLATE"), "1:00", oxygen="300"))
    first, second = shown(app), shown(app)
    assert first["key"] == KEY
    assert signed(app, first, "hold", "wait for the look inside").status_code == 303
    refused = signed(app, second, "accept", "it was a slip of the hand")
    assert refused.status_code == 422
    assert "decided: hold, wait for the look inside" in refused.text
    assert ">it was a slip of the hand</textarea>" in refused.text
    assert signed(app, second | {"decided": "no list"}, "accept", "it was a slip").status_code == 422
    assert signed(app, shown(app), "accept", "it was a slip of the hand").status_code == 303
    app.record.close()
