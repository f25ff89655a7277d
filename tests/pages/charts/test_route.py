"""The charts' addresses: what is on offer is shown, anything else is refused with what may be asked for."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.pages.shop_app import ShopApp
from tests.story.log import Tablet
from tests.work.small_shop import a_pass, send


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ShopApp]:
    made = ShopApp(Path(tmp_path_factory.mktemp("charts")))
    slate = Tablet("SLATE")
    send(made.record, slate.tell("0:10", "bead", line="N-T", result="good"))
    send(made.record, *(a_pass(slate, f"1:{10 + at}", "AB"[at % 2], oxygen=str(8 + 300 * (at % 2))) for at in range(8)))
    yield made
    made.record.close()


@pytest.mark.parametrize(
    "address",
    ["/charts", "/charts?quantity=heat_input&shared=purge+cylinder", "/charts?under=TUBE+root", "/charts/faults",
     "/charts/faults?question=purge-o2", "/charts/checks", "/charts/checks?month=2025-03"],
)  # fmt: skip
def test_every_chart_says_what_it_cannot_tell(app: ShopApp, address: str):
    """Each answers, and either teaches on an empty page or says what it cannot tell."""
    answer = app.get(address, "LEA")
    assert answer.status_code == 200
    assert "It cannot tell." in answer.text or 'class="empty"' in answer.text


def test_no_limit_is_drawn_where_no_reading_can_be(app: ShopApp):
    """Oxygen that scatters widely would have a lower limit below nought; it is left out, and the words say why."""
    drawn = app.get("/charts", "LEA").text
    assert ">upper limit" in drawn
    assert ">lower limit" not in drawn
    assert "No reading can lie below 0" in drawn


def test_what_is_not_on_offer_is_refused_with_what_is(app: ShopApp):
    """An unknown quantity, group, question or month is not found, and the page names what is expected."""
    for address, said in (
        ("/charts?quantity=luck", "heat_input"), ("/charts?shared=moon", "welder"),
        ("/charts/faults?question=luck", "any"), ("/charts/checks?month=May", "2025-03"),
    ):  # fmt: skip
        answer = app.get(address, "LEA")
        assert answer.status_code == 404
        assert said in answer.text


def test_a_check_leads_to_its_entry_and_an_entry_of_a_joint_to_its_joint(app: ShopApp):
    """The bead's page shows it with its receipts; a pass is shown among its joint's entries."""
    assert "/entries/SLATE%3Ab1%3A1" in app.get("/charts/checks", "LEA").text
    bead = app.get("/entries/SLATE:b1:1", "WEL")
    assert "test bead on N-T: good" in bead.text
    assert "taken" in bead.text
    assert app.get("/entries/SLATE:b1:2", "WEL").headers["location"] == "/history/SW-1/A#SLATE%3Ab1%3A2"
    assert app.get("/entries/nobody", "LEA").status_code == 404
