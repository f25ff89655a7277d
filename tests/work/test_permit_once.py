"""Signed again at a gate with nothing told since, a permission stands once; what came between makes it another."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from server.record.book_of_lines import Record, now_ms
from server.work.permit import PermissionAsked
from server.work.permit_once import permit_once
from server.work.told_once import ToldBefore
from tests.story.log import Tablet
from tests.work.small_shop import LEAD, OWNER, open_shop, send, weld_it_all

INSPECTED = PermissionAsked("final inspection", "SW-1", (LEAD, OWNER), override="shown to the customer")
HIDDEN = PermissionAsked("hold point", "SW-1", (LEAD, OWNER), joint="A", override="shown to the customer")


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    send(made, *weld_it_all(Tablet("SLATE")))
    yield made
    made.close()


LOOK = {"kind": "look", "frame": "SW-1", "joint": "B", "side": "outside", "answer": "graded", "grade": 1}
MEND = {"kind": "correction", "of": "SLATE:b1:5", "withdraw": True, "reason": "logged by mistake"}


@pytest.mark.parametrize("asked", [INSPECTED, HIDDEN], ids=lambda each: each.gate)
@pytest.mark.parametrize("since", [LOOK, MEND], ids=lambda each: each["kind"])
def test_the_very_next_word_of_the_frame_makes_it_another(shop: Record, asked: PermissionAsked, since: dict[str, Any]):
    """Twice at once it is one; after a look or a correction, the next line there is, the same signed is another."""
    first, again = (shop.write(lambda reads: permit_once(reads, asked, now_ms())).result() for _ in range(2))
    assert not isinstance(first, ToldBefore)
    assert again == first
    assert isinstance(again, ToldBefore)
    send(shop, Tablet("PAD").tell("3:50", **since))
    other = shop.write(lambda reads: permit_once(reads, asked, now_ms())).result()
    assert not isinstance(other, ToldBefore)
    assert other != first
