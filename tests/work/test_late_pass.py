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


@pytest.mark.parametrize(("continuity", "touched"), [("used", {"SW-1", "SW-9"}), ("confirmed", {"SW-9"})])
def test_a_late_pass_touches_its_welders_frames(shop: Record, continuity: str, touched: set[str]):
    """Only where use carries a qualification on are the welder's other frames judged again."""
    told = {"thickness_mm": ["0.7", "1.6"], "issued": "2024-01-10", "months": 6, "standard": "shop test"}
    tell(shop, kind="qualification", id="Q-9", welder="WEL", procedures=["TUBE"], continuity=continuity, **told)
    slate, spare = Tablet("SLATE"), Tablet("SPARE")
    send(shop, a_pass(slate, "1:00"))
    with shop.reads() as reads:
        before = reads.last_position()
    now = datetime.fromisoformat(slate.tell("1:00", "problem")["sent_at"].replace("Z", "+00:00"))
    days_ago = (now - timedelta(days=3)).strftime("%Y-%m-%dT%H:%M:%S.000Z")
    elsewhere: dict[str, Any] = {"frame": "SW-9", "joint": "A", "torch_line": "L-9", "purge_line": "L-8"}
    about: dict[str, Any] = {"run": "root", "setup": "one", "machine": "PW", "sleeve": "none", "happened": days_ago}
    send(shop, spare.tell("0:10", "pass", **elsewhere, **about, values=counted("40", "10", "80", "8")))
    with shop.reads() as reads:
        new = [line for line in reads.lines_between(before + 1, reads.last_position()) if line.entry_kind == "pass"]
        assert touched_by(reads, new).frames == touched
