"""A page of what else shows as much as fits, says how many there are, and leads to the rest; the list has them all."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.pages.shop_app import ShopApp
from tests.story.log import LINES, Tablet, counted
from tests.work.small_shop import send, tell

MANY = 5
ASKED = "/what-else?kind=welder&id=WEL"


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ShopApp]:
    """Five frames with a joint each, welded one after the other; a coupon before each."""
    made = ShopApp(Path(tmp_path_factory.mktemp("many")))
    with made.record.reads() as reads:
        packet = next(iter(reads.registers().packets.values()))
    slate = Tablet("SLATE")
    for number in range(2, MANY + 1):
        told = {"kind": "packet", "id": f"P-{number}", "frame": f"SW-{number}", "design": packet.design}
        tell(made.record, **told, size=packet.size, issued="2030-01-01T08:00:00.000Z")
    for number in range(1, MANY + 1):
        coupon = slate.tell(f"{number}:00", "coupon", welder="WEL", procedures=["T1"], result="failed")
        about = {"run": "root", "setup": "one", "machine": "PW", "sleeve": "none", **LINES}
        values = counted("40", "10", "80", "8")
        arc = slate.tell(f"{number}:10", "pass", frame=f"SW-{number}", joint="A", values=values, **about)
        send(made.record, coupon, arc)
    yield made
    made.record.close()


def frames(text: str) -> list[str]:
    return re.findall(r'<td><a href="/history/(SW-\d)"', text)


def test_the_last_welded_first_and_the_way_to_the_rest(app: ShopApp, monkeypatch: pytest.MonkeyPatch):
    """Two of five frames stand there with the count of all; the next two by an address, the last one by another."""
    whole = app.get(ASKED, "OWN").text
    assert "<h1>What else used welder WEL (Ada Vane)</h1>" in whole
    assert frames(whole) == ["SW-5", "SW-4", "SW-3", "SW-2", "SW-1"]
    monkeypatch.setattr("server.pages.what_else.page.FRAMES", 2)
    address, found = ASKED, []
    for shown in ("1 to 2 of 5", "3 to 4 of 5", "5 to 5 of 5"):
        text = app.get(address, "OWN").text
        assert f"{shown} shown, the last welded first" in text
        assert "<strong>5</strong> in work" in text
        assert "5 joints on 5 frames" in text
        found.append(frames(text))
        address = "".join(re.findall(r'href="([^"]+)" rel="next"', text)).replace("&amp;", "&").partition("#")[0]
    assert found == [["SW-5", "SW-4"], ["SW-3", "SW-2"], ["SW-1"]]
    assert address == ""


def test_the_list_and_a_containment_have_all_of_them(app: ShopApp, monkeypatch: pytest.MonkeyPatch):
    """However few stand on the page, the CSV and who has to be told hold every frame."""
    monkeypatch.setattr("server.pages.what_else.page.FRAMES", 2)
    every = {f"SW-{number}" for number in range(1, MANY + 1)}
    rows = app.get("/lists/what-else.csv?kind=welder&id=WEL", "OWN").text.splitlines()[1:]
    assert {row.split(",")[2] for row in rows} == every
    form = app.get("/containment?kind=welder&id=WEL", "OWN").text
    assert set(re.findall(r'name="frames" value="([^"]+)" checked', form)) == every


def test_checks_and_cuts_are_the_newest_and_the_list_has_all(app: ShopApp, monkeypatch: pytest.MonkeyPatch):
    """Of five failed coupons two stand beside it and one is offered to cut at; the count and the list tell of all."""
    monkeypatch.setattr("server.pages.what_else.page.CHECKS", 2)
    monkeypatch.setattr("server.pages.what_else.page.CUTS", 1)
    text = app.get(ASKED, "OWN").text
    assert "The checks beside it: 5, the newest 2 here" in text
    assert "These are the newest; 5 checks failed in all" in text
    assert len(re.findall(r"check=[^&\"]+\">from", text)) == 1
    rows = app.get("/lists/what-else-checks.csv?kind=welder&id=WEL", "OWN").text.splitlines()[1:]
    assert len(rows) == 5


def test_a_place_or_a_number_nobody_has_shows_what_there_is(app: ShopApp):
    """A mistyped place shows the first frames; a part there is not gives the nearest there is."""
    for mistyped in ("place=moon&part=3", "place=in+work&part=50", "place=in+work&part=-1"):
        assert len(frames(app.get(f"{ASKED}&{mistyped}", "OWN").text)) == MANY
    assert app.get(f"{ASKED}&part=x", "OWN").status_code == 422
