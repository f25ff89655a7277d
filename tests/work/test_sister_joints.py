"""A seam is compared with the same seam of other frames of its design, and what is most unlike comes first."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.record.book_of_lines import Record
from server.work.sister_joints import sister_joints
from tests.story.log import LINES, Tablet, counted, moment
from tests.work.small_shop import open_shop, send, tell


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    slate = Tablet("SLATE")
    for number, oxygen in enumerate(("60", "8", "9", "10", "11"), 1):
        frame = f"SW-{number}"
        if number > 1:
            # After the packet that the shop began with, at whatever hour of the day this runs.
            issued = f"2040-01-0{number}T07:00:00.000Z"
            tell(made, kind="packet", id=frame, frame=frame, design="DUNE", size="M", bench="N", issued=issued)
        about = {"frame": frame, "joint": "A", "run": "root", "setup": "one", "machine": "PW", "sleeve": "none"} | LINES
        send(made, slate.tell(f"{number}:00", "pass", values=counted("40", "10", str(80 + number), oxygen), **about))
    tell(made, kind="packet", id="X-1", frame="X-1", design="OTHER", size="M", bench="N", issued=moment("0:00"))
    send(made, slate.tell("8:00", "pass", values=counted("40", "10", "80", "900"), **about | {"frame": "X-1"}))
    yield made
    made.close()


def test_the_most_unlike_comes_first(shop: Record):
    """Oxygen far from the sisters' leads; other designs' frames are no sisters, and this frame is not its own."""
    with shop.reads() as reads:
        first = sister_joints(reads, "SW-1", "A")[0]
    assert (first.quantity, first.run) == ("oxygen", "root")
    assert [each.value for each in first.here] == [60]
    assert sorted(each.value for each in first.elsewhere) == [8, 9, 10, 11]
    assert first.frames == 4


def test_what_nobody_changes_does_not_differ(shop: Record):
    """A current that is the same everywhere tells nothing; another seam has nothing to compare."""
    with shop.reads() as reads:
        found = {each.quantity: each.differs for each in sister_joints(reads, "SW-1", "A")}
        assert (found["mean_current"], found["oxygen"]) == (False, True)
        assert sister_joints(reads, "SW-1", "B") == []


@pytest.mark.parametrize(
    ("frame", "beside"),
    [("SW-1", {"SW-2", "SW-3"}), ("SW-3", {"SW-2", "SW-4"}), ("SW-5", {"SW-3", "SW-4"})],
)
def test_of_many_the_nearest_are_taken(shop: Record, monkeypatch: pytest.MonkeyPatch, frame: str, beside: set[str]):
    """Where there are more sisters than are compared, those packed just before and after are, at both ends too."""
    monkeypatch.setattr("server.work.sister_joints.SISTERS", 2)
    with shop.reads() as reads:
        compared = {each.quantity: each for each in sister_joints(reads, frame, "A")}
    assert {each.frame for each in compared["oxygen"].elsewhere} == beside
