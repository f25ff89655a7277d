"""The gates' page: each says what it waits for, and what the gate before it named already is folded."""

from pathlib import Path

from tests.pages.shop_app import ShopApp
from tests.story.log import Tablet
from tests.work.small_shop import a_pass, send


def test_what_the_first_gate_names_is_folded_at_the_next(shop_app: ShopApp):
    """Every seam is named openly once; release and shipping say how many of them they wait for besides."""
    first, release, ship = shop_app.get("/gate/SW-1", "LEA").text.split('<section class="panel">')[1:]
    seams = first.count("is not welded all round")
    assert seams >= 1
    assert "named above" not in first
    for after, own in ((release, "The final inspection is not signed yet"), (ship, "The release is not signed yet")):
        openly, _, folded = after.partition("<details><summary>")
        assert own in openly
        assert "is not welded all round" not in openly
        assert folded.count("is not welded all round") == seams
        assert " named above</summary>" in folded


def test_what_was_typed_at_a_gate_stands_there_again(shop_app: ShopApp):
    """A wrong PIN loses neither the reason nor who signs with one, and puts them at no other gate."""
    told = {"gate": "release", "secret": "000001", "override": "Shown to the customer", "second": "OWN"}
    answer = shop_app.post("/gate/SW-1", "LEA", data=told)
    assert answer.status_code == 409
    _, first, release, ship = answer.text.split('<section class="panel">')
    assert ">Shown to the customer</textarea>" in release
    assert '<option value="OWN" selected>' in release
    assert "<details open>" in release
    assert "Shown to the customer" not in first + ship


def test_a_hold_point_shows_what_was_read(tmp_path: Path):
    """Whoever releases a seam sees what was read with each run, and the way to everything about the joint."""
    made = ShopApp(tmp_path)
    send(made.record, a_pass(Tablet("SLATE"), "1:00", oxygen="8"))
    page = made.get("/gate/hold-point/SW-1/A", "LEA").text
    made.record.close()
    assert "purge oxygen 8 ppm" in page
    assert 'href="/history/SW-1/A"' in page
