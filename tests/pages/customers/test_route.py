"""The owner's pages of customers: who may look, what holds the details, and that signed they are gone everywhere."""

import logging
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from server.record.book_of_lines import Record, now_ms
from server.work.claims import add_step, open_claim
from tests.pages.shop_app import ShopApp
from tests.story.works import PINS
from tests.work.small_shop import OWNER, tell
from tests.work.test_claims import STEP, TOLD

NAME, AT = "Ines Farol", "/customers/CU-1"
LETTER = {"reason": "the customer asked by letter", "secret": PINS["OWN"]}
SHOWN = {
    AT: True,
    "/customers": True,
    "/lists/customers.csv": True,
    "/claims": True,
    "/history/SW-1": True,
    "/history/SW-1/dossier.json": True,
    "/history/SW-1/dossier.json?for=customer": False,
    "/gate/SW-1": True,
}
"""Addresses, and whether a customer stands there by name."""


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[ShopApp]:
    made = ShopApp(tmp_path)
    yield made
    made.record.close()


def claimed_and_owned(record: Record) -> None:
    """The customer owns the frame, and their claim about it is closed."""
    tell(record, kind="ownership", id="O", frame="SW-1", customer="CU-1", since="2030-01-01")
    number = record.write(lambda reads: open_claim(reads, TOLD, now_ms())).result()
    closed = replace(STEP, claim=number, step="decision", settled="closed", signings=(OWNER,))
    record.write(lambda reads: add_step(reads, closed, now_ms())).result()


def test_they_are_for_the_owner(shop_app: ShopApp):
    """Nobody else looks a customer up by number; the owner reads who it is and which frames are theirs."""
    for person in ("WEL", "LEA"):
        for path in ("/customers", AT, "/lists/customers.csv"):
            assert shop_app.get(path, person).status_code == 403
        assert shop_app.post(f"{AT}/remove", person, data=LETTER).status_code == 403
    assert NAME in shop_app.get("/customers", "OWN").text
    page = shop_app.get(AT, "OWN").text
    assert "/history/SW-1" in page
    assert "Remove the details of CU-1 for good" in page
    assert shop_app.get("/customers/CU-9", "OWN").status_code == 404


@pytest.mark.parametrize("slip", [{"secret": "000000"}, {"reason": "Farol asked"}])
def test_a_slip_removes_nothing(shop: ShopApp, slip: dict[str, str]):
    """A wrong PIN, or a reason that says the name: the page says so, and the name still stands."""
    answer = shop.post(f"{AT}/remove", "OWN", data=LETTER | slip)
    assert answer.status_code == 422
    assert "Not signed" in answer.text
    assert NAME in shop.get(AT, "OWN").text


def test_what_holds_them_is_shown_in_place_of_the_form(shop: ShopApp):
    """With a claim open the page names it and offers no form; sent all the same it is refused in the same words."""
    number = shop.record.write(lambda reads: open_claim(reads, TOLD, now_ms())).result()
    page = shop.get(AT, "OWN").text
    assert f"claim {number} about SW-1 is open" in page
    assert "/remove" not in page
    answer = shop.post(f"{AT}/remove", "OWN", data=LETTER)
    assert (answer.status_code, f"claim {number} about SW-1 is open" in answer.text) == (422, True)


def test_signed_they_are_gone_from_every_page(shop: ShopApp, caplog: pytest.LogCaptureFixture):
    """The name is on the pages, lists and dossiers before and on none after, in no log line, and nothing else is."""
    caplog.set_level(logging.DEBUG)
    claimed_and_owned(shop.record)
    assert {path: NAME in shop.get(path, "OWN").text for path in SHOWN} == SHOWN
    answer = shop.post(f"{AT}/remove", "OWN", data=LETTER)
    assert answer.headers["location"] == f"{AT}?done=true"
    done = shop.get(f"{AT}?done=true", "OWN").text
    assert "The details of CU-1 are removed from the record." in done
    assert "What may still hold them" in done
    assert "the shop folder they were loaded from" in done
    after = {path: shop.get(path, "OWN").text for path in SHOWN}
    assert [path for path, text in after.items() if NAME in text] == []
    assert {path: "details removed on" in text for path, text in after.items()} == SHOWN
    assert "Farol" not in caplog.text
