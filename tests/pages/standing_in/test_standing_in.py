"""The lead lets a welder stand in: until then the desk is closed to him, then open, and what he signs says for whom."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from tests.pages.shop_app import ShopApp
from tests.story.works import PINS


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[ShopApp]:
    made = ShopApp(tmp_path)
    yield made
    made.record.close()


def asked(**changed: str) -> dict[str, str]:
    day = (datetime.now(UTC) + timedelta(days=7)).date().isoformat()
    told = {"person": "WEL", "role": "quality lead", "until": day, "reason": "holiday", "secret": PINS["LEA"]}
    return told | changed


def test_the_desk_opens_to_who_stands_in(shop: ShopApp):
    """Refused before, let in after the lead signed, refused again once she ended it."""
    assert shop.get("/desk", "WEL").status_code == 403
    assert shop.post("/standing-in", "LEA", data=asked()).status_code == 303
    assert shop.get("/desk", "WEL").status_code == 200
    page = shop.get("/standing-in", "LEA").text
    assert "<strong>Ada Vane</strong> stands in for Quin Moor as quality lead" in page
    number = page.partition('name="which" value="')[2].partition('"')[0]
    ended = shop.post("/standing-in/end", "LEA", data={"which": number, "secret": PINS["LEA"]})
    assert ended.status_code == 303
    assert shop.get("/desk", "WEL").status_code == 403


@pytest.mark.parametrize(
    ("changed", "said"), [({"secret": "000000"}, "Not signed"), ({"until": "someday"}, "until: say the last day")]
)
def test_nothing_is_given_without_signature_or_day(shop: ShopApp, changed: dict[str, str], said: str):
    """A wrong PIN or no day gives nothing; what was filled in stands."""
    answer = shop.post("/standing-in", "LEA", data=asked(**changed))
    assert answer.status_code in (403, 422)
    assert said in answer.text
    assert shop.get("/desk", "WEL").status_code == 403


def test_a_welder_has_nothing_to_give(shop: ShopApp):
    """The page is for those whose role may be stood in for."""
    assert shop.get("/standing-in", "WEL").status_code == 403
