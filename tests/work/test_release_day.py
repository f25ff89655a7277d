"""The day of release tells what was open and late as known then, and what came to light afterwards."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.facts.judged import Word
from server.record.book_of_lines import Record, now_ms
from server.work.judge_new import judge_new
from server.work.narrow import NarrowingAsked, narrow
from server.work.refusal import NotThere
from server.work.release_day import ReleaseDay, release_day
from server.work.suspect_sets import one_suspect_set
from tests.story.log import Tablet
from tests.work.small_shop import LEAD, OWNER, a_pass, accept_all, open_shop, pass_gate, send, weld_it_all


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    made = open_shop(tmp_path)
    send(made, *weld_it_all(Tablet("SLATE")))
    accept_all(made)
    pass_gate(made, "final inspection")
    judge_new(made)
    yield made
    made.close()


def on_that_day(shop: Record) -> ReleaseDay:
    with shop.reads() as reads:
        return release_day(reads, "SW-1")


def test_before_a_release_there_is_no_such_day(shop: Record):
    """Nothing was signed over, and the refusal says where to look."""
    with pytest.raises(NotThere, match="SW-1 has not been released"):
        on_that_day(shop)


def test_what_was_decided_before_is_waived_and_not_open(shop: Record):
    """Everything was accepted by the owner before the release: nothing is open, and the acceptance stands with it."""
    pass_gate(shop, "release")
    day = on_that_day(shop)
    assert (day.open_then, day.late, day.since, day.otherwise) == ((), (), (), ())
    assert {decision.choice for decision, _ in day.waived} == {"accept"}
    assert [each.person for each in day.release.signatures] == ["LEA"]
    assert day.inspection is not None


def test_what_a_tablet_held_back_is_late_and_came_to_light_since(shop: Record):
    """A pass that happened before the release and was sent after it is late; its finding was not open then."""
    pass_gate(shop, "release")
    send(shop, a_pass(Tablet("SLATE", "b2"), "1:50", oxygen="300"))
    day = on_that_day(shop)
    assert [(each.after_release, each.told.entry.device) for each in day.late] == [(True, "SLATE")]
    assert "SW-1/A#1|purge-o2" in {each.finding.key for each in day.since}
    assert "SW-1/A#1|purge-o2" not in {each.finding.key for each in day.open_then}


def test_a_question_answered_otherwise_since_has_both_answers(shop: Record):
    """The late pass turns the purge's answer: within on the day of release, outside now."""
    pass_gate(shop, "release")
    send(shop, a_pass(Tablet("SLATE", "b2"), "1:50", oxygen="300"))
    judge_new(shop)
    changed = {(each.now.subject, each.now.question): each for each in on_that_day(shop).otherwise}
    purge = changed["SW-1/A#1", "purge-o2"]
    assert (purge.then.word, purge.now.word) == (Word.WITHIN, Word.OUTSIDE)


def test_what_was_found_since_stays_told_once_it_is_decided(shop: Record):
    """Deciding a finding that came after the release does not take it off what came to light since."""
    pass_gate(shop, "release")
    send(shop, a_pass(Tablet("SLATE", "b2"), "1:50", oxygen="300"))
    judge_new(shop)
    accept_all(shop)
    states = {each.finding.key: each.state for each in on_that_day(shop).since}
    assert states["SW-1/A#1|purge-o2"] == "decided"


def test_what_was_open_is_told_and_that_it_was_signed_over(shop: Record):
    """A finding known before the release and overridden there is open then, and named as signed over."""
    send(shop, a_pass(Tablet("SLATE", "b2"), "1:50", oxygen="300"))
    pass_gate(shop, "release", LEAD, OWNER, override="it leaves today")
    day = on_that_day(shop)
    assert "SW-1/A#1|purge-o2" in {each.finding.key for each in day.open_then}
    assert "SW-1/A#1|purge-o2" in day.signed_over
    assert day.since == ()


def test_what_let_a_joint_out_since_is_told(shop: Record):
    """A bead that failed held the joint on the day of release; the narrowing signed since is told with its check."""
    slate = Tablet("SLATE", "b2")
    send(
        shop,
        slate.tell("0:10", "bead", line="N-P", result="good"),
        slate.tell("9:00", "cylinder", line="N-P", on="C-2", off="C-1"),
        slate.tell("9:10", "bead", line="N-P", result="failed"),
    )
    pass_gate(shop, "release", LEAD, OWNER, override="it leaves today")
    with shop.reads() as reads:
        found = one_suspect_set(reads, "SLATE:b2:3")
    asked = NarrowingAsked("SLATE:b2:3", "cylinder connected", "SLATE:b2:2", "only the cylinder changed", (LEAD,))
    shop.write(lambda reads: narrow(reads, asked, found, now_ms())).result()
    judge_new(shop)
    changed = {(each.now.subject, each.now.question): each for each in on_that_day(shop).otherwise}
    held = changed["SW-1/A#1", "held-by-failed-check"]
    assert (held.then.word, held.now.word) == (Word.OUTSIDE, Word.WITHIN)
    assert "only the cylinder changed" in held.now.message
    assert held.now.rests_on == ("SLATE:b2:3",)
