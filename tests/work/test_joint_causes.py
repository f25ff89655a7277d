"""The causes of a joint are told from the record, and a reading taken away turns its word to silence."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.record.book_of_lines import Record
from server.work.joint_causes import JointCauses, causes_from, joint_causes, watched
from server.work.known_shop import known_shop
from server.work.refusal import NotThere
from tests.story.log import LINES, Tablet
from tests.work.small_shop import a_pass, open_shop, send


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Record]:
    made = open_shop(Path(tmp_path_factory.mktemp("shop")))
    tablet = Tablet("SLATE")
    tack = tablet.on_joint("1:00", "tack", "A", setup="one", **LINES)
    fill = a_pass(tablet, "1:30", "A", run="fill", sleeve="S-1", oxygen="300")
    send(made, tack, a_pass(tablet, "1:10", "A"), fill)
    yield made
    made.close()


def word(found: JointCauses, cause: str):
    return next(each for each in found.words if each.cause == cause)


def test_oxygen_over_the_limit_speaks_for_the_purge(shop: Record):
    """Air in the purge at the fill supports the purge causes, resting on that very pass."""
    with shop.reads() as reads:
        fill = next(each.entry.id for each in reads.frame_entries("SW-1") if getattr(each.entry, "run", "") == "fill")
        found = word(joint_causes(reads, "SW-1", "A"), "C3")
    assert found.says == "supports"
    assert any(fill in each.rests_on for each in found.because)


def test_a_copy_without_the_passes_is_silent(shop: Record):
    """What the counted current of the passes excludes is silent in a copy without the passes."""
    with shop.reads() as reads:
        position = reads.last_position()
        entries = reads.frame_entries("SW-1")
        known = known_shop(reads, position)
    whole = causes_from(known, "SW-1", "A", entries, position)
    less = causes_from(known, "SW-1", "A", [each for each in entries if each.entry.kind != "pass"], position)
    assert (word(whole, "C14").says, word(less, "C14").says) == ("excludes", "silent")
    assert "the mean current" in word(less, "C14").missing


def test_a_failed_check_speaks_only_for_its_own_cause():
    """What a failed bead holds is told by line, so that purge gas never speaks for torch gas, meter or coupon."""
    asked = watched()
    assert all("held-by-failed-check" not in questions for questions in asked.values())
    assert [cause for cause, questions in asked.items() if "purge bead failed" in questions] == ["C2"]


def test_a_joint_never_welded_is_said(shop: Record):
    """There is nothing to ask of a joint without an entry, or of a frame without a packet."""
    with shop.reads() as reads:
        with pytest.raises(NotThere, match="Z"):
            joint_causes(reads, "SW-1", "Z")
        with pytest.raises(NotThere, match="SW-9"):
            joint_causes(reads, "SW-9", "A")
