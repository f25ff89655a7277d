"""A paper that is refused stands as it was filled in, and what was told anew meanwhile is said word for word."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.pages.shop_app import ShopApp
from tests.story.works import PINS

WRONG = {"secret": "000001", "second": "OWN", "second_secret": "000001"}
CHOSEN = '<option value="OWN" selected>'


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ShopApp]:
    made = ShopApp(Path(tmp_path_factory.mktemp("papers")))
    yield made
    made.record.close()


def test_a_deviation_permit_stays_one(app: ShopApp):
    """A wrong PIN leaves the tick that makes it a permit, who signs beside, and every word."""
    told = {"frames": "SW-1", "count": "1", "expires": "2099-01-01", "reason": "no load", "before": "true"}
    refused = app.post("/concessions", "LEA", data=told | WRONG)
    assert refused.status_code == 422
    assert 'name="before" value="true" checked' in refused.text
    assert CHOSEN in refused.text


def test_a_nonconformity_to_be_closed_stays_so(app: ShopApp):
    """A wrong PIN leaves the tick that closes it, and who signs beside."""
    refused = app.post("/nonconformities/new", "LEA", data={"title": "grey", "close": "true"} | WRONG)
    assert refused.status_code == 422
    assert 'name="close" value="true" checked' in refused.text
    assert CHOSEN in refused.text


def test_what_was_told_anew_meanwhile_is_said(app: ShopApp):
    """Two write on one paper: the second is told what stands there now and keeps what they wrote."""
    lead, owner = {"secret": PINS["LEA"]}, {"secret": PINS["OWN"]}
    made = app.post("/nonconformities/new", "LEA", data={"title": "grey bead", "held": "SW-1/A#1"} | lead)
    number = made.headers["location"].partition("=")[2]
    with app.record.reads() as reads:
        seen = {"seen_position": str(reads.registers().positions[f"nonconformity:{number}"]), "title": "grey bead"}
    theirs = seen | {"held": "SW-1/B#1", "cause": "a worn hose"}
    assert app.post(f"/nonconformities/{number}", "OWN", data=theirs | owner).status_code == 303
    mine = seen | {"held": "SW-1/A#1", "cause": "thin gas"}
    refused = app.post(f"/nonconformities/{number}", "LEA", data=mine | lead)
    assert refused.status_code == 422
    assert "<li>held now reads: SW-1/B#1</li><li>cause now reads: a worn hose</li></ul>" in refused.text
    assert ">thin gas</textarea>" in refused.text


def test_a_certificates_line_stays_chosen(app: ShopApp):
    """A file that is none leaves the register line it was for."""
    answer = app.post("/registers/certificates", "LEA", data={"of": "tube heat:H-1"}, files={"file": ("a", b"no pdf")})
    assert answer.status_code == 422
    assert '<option value="tube heat:H-1" selected>' in answer.text
