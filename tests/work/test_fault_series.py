"""Joints stand in the order of their last arc; faulty is what the question asked for was not met on."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.record.book_of_lines import Record
from server.work.fault_series import ANY, fault_series, questions_of_joints
from tests.story.log import Tablet
from tests.work.small_shop import a_pass, open_shop, send


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    slate = Tablet("SLATE")
    send(made, a_pass(slate, "1:00", "A"), a_pass(slate, "2:00", "B", oxygen="300"), a_pass(slate, "3:00", run="fill"))
    yield made
    made.close()


def series(record: Record, question: str) -> list[tuple[str, bool]]:
    with record.reads() as reads:
        return [(each.joint, each.faulty) for each in fault_series(reads, reads.findings(), question)]


def test_joints_stand_in_the_order_of_their_last_arc(shop: Record):
    """A joint welded again later comes after one finished before; only the joint with bad gas is faulty on oxygen."""
    assert series(shop, "purge-o2") == [("B", True), ("A", False)]


def test_a_question_nobody_failed_finds_no_fault(shop: Record):
    """Asked about something else, no joint is faulty."""
    assert not any(faulty for _, faulty in series(shop, "arc-strike"))


def test_questions_on_offer_are_those_with_a_fault_on_a_joint(shop: Record):
    """The failed question is on offer and one that was met is not; any counts what had to be decided."""
    with shop.reads() as reads:
        offered = questions_of_joints(reads.findings())
    assert "purge-o2" in offered
    assert "mean-current" not in offered
    assert ("B", True) in series(shop, ANY)
