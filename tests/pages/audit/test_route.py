"""The sample audit on the screen: draw a week, see why, tell a look with a signature, read the bound."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.occasions.days import Days
from server.work.audit_week import week_of
from server.work.judge_new import judge_new
from tests.pages.shop_app import ShopApp
from tests.story.works import PINS
from tests.work.last_weeks import OVER, weld_clean
from tests.work.small_shop import tell


@pytest.fixture
def app(tmp_path: Path) -> Iterator[ShopApp]:
    made = ShopApp(tmp_path)
    weld_clean(made.record)
    yield made
    made.record.close()


def the_week(app: ShopApp) -> str:
    with app.record.reads() as reads:
        known = reads.registers().shop
    return week_of(int(OVER.timestamp() * 1000), Days(known.zone if known else "UTC"))


def drawn(app: ShopApp) -> str:
    told = {"kind": "acceptance", "id": "audit", "name": "sample_audit", "unit": "joints", "value": "2"}
    tell(app.record, **told, source="lead", valid_from="2020-01-01")
    judge_new(app.record)
    # No judge runs beside this application: the checkpoint that the draw makes is judged before the second asking.
    app.post("/audit", "LEA", data={"week": the_week(app)})
    judge_new(app.record)
    answer = app.post("/audit", "LEA", data={"week": the_week(app)})
    return answer.headers.get("location", f"/audit/SD-{the_week(app)}")


def test_a_shop_that_named_no_number_is_taught(app: ShopApp):
    """Without the figure the page says where to write it, and drawing says the same."""
    assert "<code>sample_audit</code>" in app.get("/audit", "LEA").text
    refused = app.post("/audit", "LEA", data={"week": the_week(app)})
    assert refused.status_code == 422
    assert "acceptance: sample_audit is not written" in refused.text


def test_a_drawn_week_shows_its_joints_and_comes_out_the_same(app: ShopApp):
    """The draw's page names both joints to look at and says that the record draws the same again."""
    page = app.get(drawn(app), "LEA").text
    assert page.count("to look at</strong>") == 2
    assert "the same list, the same seed, the same joints" in page


def test_a_look_is_signed_and_counts(app: ShopApp):
    """Signed with the PIN it stands on the sheet and in the bound; a wrong PIN tells nothing and keeps the form."""
    address = drawn(app)
    told = {"subject": "SW-1/B#1", "outcome": "agrees", "words": "by borescope: silver", "secret": "000001"}
    wrong = app.post(address, "LEA", data=told)
    assert wrong.status_code == 422
    assert "by borescope: silver</textarea>" in wrong.text
    answers = [app.post(address, "LEA", data=told | {"secret": PINS["LEA"]}) for _ in "12"]
    assert [each.headers["location"].endswith("&twice=true") for each in answers] == [False, True]
    drawn_again = app.post("/audit", "LEA", data={"week": the_week(app)})
    assert drawn_again.headers["location"] == f"/audit/SD-{the_week(app)}?twice=true"
    assert app.post("/audit", "OWN", data={"week": the_week(app)}).status_code == 422
    page = app.get(address, "LEA").text
    assert "Looked at again: 1; something found: 0" in page
    assert "95.0 %" in page
    assert "Nothing found" in page


def test_an_outcome_nobody_knows_is_refused(app: ShopApp):
    """Only what the form offers can be told, and a draw nobody made is not there."""
    told = {"subject": "SW-1/B#1", "outcome": "perfect", "words": "so", "secret": PINS["LEA"]}
    assert "perfect" in app.post(drawn(app), "LEA", data=told).text
    assert app.get("/audit/SD-2020-W01", "LEA").status_code == 404
