"""Whatever somebody may ask by is offered by a part of its name or of what is known of it."""

from urllib.parse import quote

import pytest

from server.work.what_things import KINDS
from tests.pages.shop_app import ShopApp
from tests.work.small_shop import tell

OFFERED = {
    "cylinder": ("c-", [["C-2", "fill lot G-1"], ["C-1", "fill lot G-1"]]),
    "fill lot": ("g", [["G-1", "2 cylinders"]]),
    "sleeve": ("ERTi-9", [["S-1", "ERTi-9, lot R9"]]),
    "filler lot": ("R", [["R9", "ERTi-9"]]),
    "tube heat": ("3al", [["H-1", "Ti-3Al-2.5V"]]),
    "welder": ("vane", [["WEL", "Ada Vane"]]),
    "bench": ("north", [["N", "north bench"]]),
    "line": ("purge", [["N-P", "purge gas of north bench"]]),
    "instrument": ("OX", [["OX", "oxygen meter"]]),
    "revision": ("tube rev", [["TUBE rev A", "Tube on tube"]]),
    "fixture": ("", [["FX-9", "at N"]]),
    "week": ("20", []),
}


def _offered(app: ShopApp, kind: str, typed: str) -> list[list[str]]:
    found: list[list[str]] = app.get(f"/what-else/names?kind={quote(kind)}&typed={quote(typed)}", "OWN").json()
    return found


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_is_offered(shop_app: ShopApp, kind: str):
    """Capitals or not, name or words; letters that nothing has offer nothing."""
    since = "2030-02-01T09:00:00.000Z"
    tell(shop_app.record, kind="window", id="FX", what="fixture at bench", subject="FX-9", bench="N", since=since)
    typed, offered = OFFERED[kind]
    assert _offered(shop_app, kind, typed) == offered
    assert _offered(shop_app, kind, "no such thing") == []


def test_a_kind_nobody_may_ask_by_is_refused(shop_app: ShopApp):
    """The refusal names the kinds there are, and a welder is not asked at all."""
    answer = shop_app.get("/what-else/names?kind=moon&typed=", "OWN")
    assert answer.status_code == 422
    assert "fill lot" in answer.text
    assert shop_app.get("/what-else/names?kind=welder&typed=", "WEL").status_code == 403
