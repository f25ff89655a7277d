"""What else rests on a claim's cause: what the same failed check holds, what came from the same wrong sleeve."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.record.book_of_lines import Record, now_ms
from server.work.joint_causes import joint_causes
from server.work.narrow import NarrowingAsked, narrow
from server.work.suspect_sets import one_suspect_set
from tests.story.log import Tablet
from tests.work.small_shop import LEAD, a_pass, open_shop, send

FAILED = "SLATE:b1:5"


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    """Joints A and B welded before a bead that failed, C on the next cylinder after it."""
    made = open_shop(tmp_path)
    slate = Tablet("SLATE")
    send(
        made,
        slate.tell("0:10", "bead", line="N-P", result="good"),
        a_pass(slate, "1:00"),
        slate.tell("2:00", "cylinder", line="N-P", on="C-2", off="C-1"),
        a_pass(slate, "3:00", "B", run="fill", sleeve="S-1"),
        slate.tell("4:00", "bead", line="N-P", result="failed"),
        slate.tell("4:10", "cylinder", line="N-P", on="C-1", off="C-2"),
        slate.tell("4:20", "bead", line="N-P", result="good"),
        a_pass(slate, "5:00", "C", run="fill", sleeve="S-1"),
    )
    yield made
    made.close()


def sharing(shop: Record, joint: str) -> list[str]:
    with shop.reads() as reads:
        return [each.verdict.subject for each in joint_causes(reads, "SW-1", joint).sharing]


def test_the_failed_bead_holds_them_together(shop: Record):
    """What was welded before the bead failed shares its gas; what was welded on the next cylinder does not."""
    assert sharing(shop, "A") == ["SW-1/B#1"]
    assert sharing(shop, "C") == []


def test_it_is_told_with_its_entries_and_its_place(shop: Record):
    """Each stands as a stop, names the failed check and its own passes, and says where the joint is."""
    with shop.reads() as reads:
        first = joint_causes(reads, "SW-1", "A").sharing[0]
    assert (first.verdict.question, first.verdict.word, first.verdict.severity) == ("shares-cause", "outside", "stop")
    assert first.verdict.rests_on == (FAILED, "SLATE:b1:4")
    assert first.shared.place == "in work"


def test_a_signed_narrowing_lets_go(shop: Record):
    """Once the cylinder change is signed as the fact, a joint let out shares nothing with those that stay."""
    with shop.reads() as reads:
        found = one_suspect_set(reads, FAILED)
    asked = NarrowingAsked(FAILED, "cylinder connected", "SLATE:b1:3", "only the cylinder changed", (LEAD,))
    shop.write(lambda reads: narrow(reads, asked, found, now_ms())).result()
    assert sharing(shop, "A") == sharing(shop, "B") == []


def test_a_joint_made_again_is_no_product(shop: Record):
    """What was cut out and made again since is not in product any more."""
    send(shop, a_pass(Tablet("PAD"), "6:00", "B", run="root", attempt=2))
    assert sharing(shop, "A") == []


def test_a_wrong_sleeve_holds_them_together(shop: Record):
    """Rod ends of another class than the label put every fill from the sleeve beside the claimed one."""
    send(shop, Tablet("PAD").tell("7:00", "sleeve", sleeve="S-1", act="checked", rod_ends="ERTi-2"))
    assert sharing(shop, "C") == ["SW-1/B#1"]
