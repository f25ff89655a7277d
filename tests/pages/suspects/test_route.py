"""The list of suspect sets: the newest first, as many as fit, found by name, and those that still hold something."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.pages.shop_app import ShopApp
from tests.story.log import Tablet
from tests.work.small_shop import a_pass, send

SETS = "/suspect-sets"


@pytest.fixture(scope="module")
def app(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ShopApp]:
    """Three failed beads on the purge line with a pass before the second, and one on the torch line."""
    made = ShopApp(Path(tmp_path_factory.mktemp("sets")))
    slate = Tablet("SLATE")
    beads = [slate.tell(f"{at}:00", "bead", line="N-P", result="failed") for at in ("0", "2", "4")]
    good = [slate.tell(f"{at}:30", "bead", line="N-P", result="good") for at in ("0", "2", "4")]
    between = [beads[0], good[0], a_pass(slate, "1:00"), beads[1], good[1], beads[2], good[2]]
    send(made.record, *between, slate.tell("5:00", "bead", line="N-T", result="failed"))
    yield made
    made.record.close()


def names(text: str) -> list[str]:
    return re.findall(r'<tr><td><a href="/suspect-sets/[^"]+">([^ <]+)', text)


def test_the_newest_first_as_many_as_fit(app: ShopApp, monkeypatch: pytest.MonkeyPatch):
    """All four by two pages of two; each says which of how many stand there."""
    assert len(names(app.get(SETS, "LEA").text)) == 4
    monkeypatch.setattr("server.pages.suspects.route.SHOWN", 2)
    first = app.get(SETS, "LEA").text
    assert "1 to 2 of 4 shown, newest failure first" in first
    assert f'href="{SETS}?part=2" rel="next"' in first
    second = app.get(f"{SETS}?part=2", "LEA").text
    assert "3 to 4 of 4 shown" in second
    assert f'href="{SETS}" rel="prev"' in second
    monkeypatch.undo()
    assert names(first) + names(second) == names(app.get(SETS, "LEA").text)


def test_those_that_still_hold_something_and_those_of_one_line(app: ShopApp):
    """The filter leaves the sets with a joint still in; a part of the name finds the line; both are said in words."""
    text = app.get(f"{SETS}?holding=yes", "LEA").text
    assert len(names(text)) == 2
    assert "Asked for still holding something back: 2" in text
    assert "2 of them still hold something back" in text
    torch = app.get(f"{SETS}?find=n-t&kind=bead", "LEA").text
    assert len(names(torch)) == 1
    assert "Asked for a failed bead, n-t in the name: 1" in torch
    assert "No set is as asked" in app.get(f"{SETS}?find=zz", "LEA").text


def test_the_list_has_every_joint_of_every_set(app: ShopApp, monkeypatch: pytest.MonkeyPatch):
    """However few sets stand on the page, the CSV holds them all."""
    monkeypatch.setattr("server.pages.suspects.route.SHOWN", 1)
    rows = app.get("/lists/suspects.csv", "LEA").text.splitlines()[1:]
    assert len(rows) == 2
