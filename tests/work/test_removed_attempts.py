"""A finding on a seam that was made anew is told from one on a seam still in the frame; a repair makes none anew."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.judgement.matters import Matter, matters
from server.record.book_of_lines import Record
from server.work.morning_list import open_on_shipped
from server.work.removed_attempts import last_made
from tests.story.log import Tablet, moment
from tests.work.small_shop import a_pass, open_shop, send, tell

KEY = "SW-1/A#1|purge-o2"


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    send(made, a_pass(Tablet("SLATE"), "1:00", oxygen="300"))
    yield made
    made.close()


def removed(shop: Record) -> bool:
    with shop.reads() as reads:
        standing: list[Matter] = matters(reads.findings(frame="SW-1"), ())
        made = last_made(reads, standing)
        return made.removed(next(each for each in standing if each.finding.key == KEY))


def test_a_later_attempt_takes_the_first_one_out_of_the_frame(shop: Record):
    """Before the second attempt its finding is in the frame, afterwards it is not."""
    assert not removed(shop)
    send(shop, a_pass(Tablet("SLATE", "b2"), "3:00", attempt=2))
    assert removed(shop)


def test_a_repair_leaves_the_seam_it_mends(shop: Record):
    """A repair run in a second attempt makes nothing anew."""
    send(shop, a_pass(Tablet("SLATE", "b2"), "3:00", attempt=2, run="repair"))
    assert not removed(shop)


def test_on_a_shipped_frame_it_stands_apart(shop: Record):
    """The owner's list of what is open out there has it first, and once made anew no more."""
    tell(shop, kind="shipment", id="SH-1", frame="SW-1", customer="CU-1", at=moment("9:00"))
    with shop.reads() as reads:
        assert "purge-o2" in {each.question for each in open_on_shipped(reads).out}
    send(shop, a_pass(Tablet("SLATE", "b2"), "3:00", attempt=2))
    with shop.reads() as reads:
        found = open_on_shipped(reads)
    assert "purge-o2" not in {each.question for each in found.out}
    assert "purge-o2" in {each.question for each in found.removed}
