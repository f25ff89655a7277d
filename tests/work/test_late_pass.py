"""A pass that arrives days late may carry a qualification by use over days that were judged, so it reaches further."""

from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

import pytest

from server.record.book_of_lines import Record
from server.work.touched import touched_by
from tests.story.log import Tablet, counted
from tests.work.small_shop import a_pass, open_shop, send, tell


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    yield made
    made.close()


HOLDS = {"thickness_mm": ["0.7", "1.6"], "issued": "2024-01-10", "months": 6, "standard": "shop test"}
ELSEWHERE: dict[str, Any] = {"frame": "SW-9", "joint": "A", "torch_line": "L-9", "purge_line": "L-8"}
ABOUT: dict[str, Any] = {"run": "root", "setup": "one", "machine": "PW", "sleeve": "none"}


def days_ago(days: int) -> str:
    """Write the moment some days before now."""
    now = datetime.fromisoformat(Tablet("CLOCK").tell("1:00", "problem")["sent_at"].replace("Z", "+00:00"))
    return (now - timedelta(days=days)).strftime("%Y-%m-%dT%H:%M:%S.000Z")


def touched(shop: Record, sent: dict[str, Any]) -> frozenset[str]:
    """Send something and give the frames to judge again for it."""
    with shop.reads() as reads:
        before = reads.last_position()
    send(shop, sent)
    with shop.reads() as reads:
        new = [line for line in reads.lines_between(before + 1, reads.last_position()) if line.kind == "entry"]
        return touched_by(reads, [line for line in new if line.entry_kind != "opened"]).frames


@pytest.mark.parametrize(("continuity", "frames"), [("used", {"SW-1", "SW-9"}), ("confirmed", {"SW-9"})])
def test_a_late_pass_touches_its_welders_frames(shop: Record, continuity: str, frames: set[str]):
    """Only where use carries a qualification on are the welder's other frames judged again."""
    tell(shop, kind="qualification", id="Q-9", welder="WEL", procedures=["TUBE"], continuity=continuity, **HOLDS)
    send(shop, a_pass(Tablet("SLATE"), "1:00"))
    late = Tablet("SPARE").tell(
        "0:10", "pass", **ELSEWHERE, **ABOUT, happened=days_ago(3), values=counted("40", "10", "80", "8")
    )
    assert touched(shop, late) == frames


@pytest.mark.parametrize(
    ("told", "days", "continuity", "frames"),
    [
        ({"withdraw": True}, 3, "used", {"SW-1", "SW-9"}),
        ({"change": {"who": "LEA"}}, 3, "used", {"SW-1", "SW-2", "SW-9"}),
        ({"change": {"happened": "2024-03-01T10:00:00.000Z"}}, 0, "used", {"SW-1", "SW-9"}),
        ({"change": {"run": "fill"}}, 3, "used", {"SW-9"}),
        ({"withdraw": True}, 0, "used", {"SW-9"}),
        ({"withdraw": True}, 3, "confirmed", {"SW-9"}),
    ],
)
def test_a_pass_put_right_late_touches_the_frames_of_who_is_said_to_have_welded(
    shop: Record, told: dict[str, Any], days: int, continuity: str, frames: set[str]
):
    """Taken back, or said to be another's, days later: both welders' frames, on whatever line; taken back anew, too."""
    tell(shop, kind="qualification", id="Q-9", welder="WEL", procedures=["TUBE"], continuity=continuity, **HOLDS)
    slate, spare = Tablet("SLATE"), Tablet("SPARE")
    send(shop, a_pass(slate, "1:00"))
    other = ELSEWHERE | {"frame": "SW-2", "torch_line": "L-7", "purge_line": "L-6"}
    send(shop, slate.tell("1:10", "pass", who="LEA", **other, **ABOUT))
    wrong = spare.tell("0:10", "pass", **ELSEWHERE, **ABOUT, happened=days_ago(days))
    send(shop, wrong)
    pad = Tablet("PAD")
    put_right = pad.tell("2:00", "correction", of="SPARE:b1:1", reason="put right", **told)
    assert touched(shop, put_right) == frames
    undone = pad.tell("2:10", "correction", of="PAD:b1:1", withdraw=True, reason="it was right")
    assert touched(shop, undone) == frames


def test_a_coupon_put_right_touches_its_welders_frames(shop: Record):
    """A coupon that did fail restores nothing: where use carries a qualification on, its welder's frames are judged."""
    tell(shop, kind="qualification", id="Q-9", welder="WEL", procedures=["TUBE"], continuity="used", **HOLDS)
    send(shop, a_pass(Tablet("SLATE"), "1:00"))
    coupon = {"welder": "WEL", "procedures": ["TUBE"], "result": "good", "happened": days_ago(3)}
    send(shop, Tablet("SPARE").tell("0:10", "coupon", who="LEA", **coupon))
    put_right = {"of": "SPARE:b1:1", "change": {"result": "failed"}, "reason": "bent again, it cracked"}
    assert touched(shop, Tablet("PAD").tell("2:00", "correction", who="LEA", **put_right)) == {"SW-1"}


def test_corrections_that_name_each_other_touch_nobody(shop: Record):
    """What mends only itself, or says a welder that is none, lets nobody be judged and ends."""
    tell(shop, kind="qualification", id="Q-9", welder="WEL", procedures=["TUBE"], continuity="used", **HOLDS)
    first, second = Tablet("PAD"), Tablet("SLATE")
    change: dict[str, Any] = {"change": {"who": ["nobody", {}]}, "reason": "put right"}
    assert touched(shop, first.tell("2:00", "correction", of="SLATE:b1:1", **change)) == set()
    assert touched(shop, second.tell("2:00", "correction", of="PAD:b1:1", **change)) == set()
