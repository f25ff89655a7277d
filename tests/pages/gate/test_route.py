"""The gates' page: each says what it waits for, and what the gate before it named already is folded."""

from tests.pages.shop_app import ShopApp


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
