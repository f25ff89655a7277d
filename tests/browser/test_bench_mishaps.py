"""What goes wrong at the bench and is said there: a failed bead, a cylinder run low, a port moved, tacks cut out."""

from collections.abc import Iterator
from typing import Any

import pytest
from playwright.sync_api import Browser

from tests.browser.chromium import sign_in, tablet
from tests.browser.conftest import Shop
from tests.browser.hand import Hand
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import PIN, WELDER

_GUARD_MS = 720
_TOLD_OTHERS = """
async () => {
  const sheet = await (await fetch('/api/bench/B1')).json();
  return sheet.entries.some(({ kind, line, result }) => kind === 'bead' && line === 'B1-T' && result === 'failed');
}
"""
_KEPT = "[...strawlineBench.taken, ...strawlineBench.waiting].map((kept) => kept.entry)"


@pytest.fixture(scope="module")
def hand(browser: Browser, shop: Shop) -> Iterator[Hand]:
    """A welder signed in on one tablet for all of a bad day."""
    context = tablet(browser)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN, "TAB-MISHAPS")
    until(lambda: page.evaluate("strawlineBench.sheet !== null"))
    yield Hand(page)
    context.close()


def at_the_frame(hand: Hand) -> int:
    """Begin at the frame; gives the count of the last entry logged before."""
    hand.page.wait_for_timeout(_GUARD_MS)
    hand.page.evaluate("strawlineBench.go({ screen: 'frame' })")
    return max((each["seq"] for each in hand.page.evaluate(_KEPT)), default=0)


def arrived(hand: Hand, after: int) -> list[dict[str, Any]]:
    """Wait until all is in the record, see that nothing was misunderstood, and give what was logged since."""
    hand.in_the_record()
    assert hand.page.evaluate("strawlineBench.told.map((kept) => kept.receipt.problem)") == []
    return [each for each in hand.entries() if each["seq"] > after]


def test_a_moved_port_is_another_setup_and_another_flow(hand: Hand) -> None:
    """From a joint its own set-up stands there; a port moved names where the gas goes in now; Back is the joint."""
    start = at_the_frame(hand)
    hand.tap("more-all", "joint-J07", "foot-purge", "purge-on", "purge-moved", "setup-LST-S1")
    hand.key_in("5")
    hand.tap("purge-moved-now", "back")
    assert hand.page.locator("h1").first.inner_text().startswith("J07")
    on, moved = arrived(hand, start)
    joint = "strawlineBench.frame.joints.find((each) => each.id === 'J07').setup"
    assert (on["act"], on["setup"]) == ("on", hand.page.evaluate(joint))
    assert [moved["act"], moved["setup"], moved["values"]["pre_purge_flow"]["value"]] == ["moved", "LST-S1", "5"]


def test_a_failed_bead_is_said_wherever_its_line_is_used(hand: Hand) -> None:
    """The line stands still at the gas, on the foot, at the joint, among the open ends, and on the sheet."""
    start = at_the_frame(hand)
    hand.tap("foot-gas", "bead-B1-T", "failed", "grade-5")
    assert "B1-T stands still" in hand.page.locator(".red-light").inner_text()
    hand.tap("back", "more-all", "joint-J05")
    said = "B1-T: its last test bead failed"
    assert said in hand.page.locator(".blocked-note").first.inner_text()
    assert "B1-T: bead failed" in hand.control("foot-gas").inner_text()
    hand.tap("foot-log", "open-ends", "open-bead-B1-T", "back")
    assert [each["result"] for each in arrived(hand, start)] == ["failed"]
    assert hand.page.evaluate(_TOLD_OTHERS) is True
    hand.tap("foot-gas", "bead-B1-T", "good", "grade-0")
    assert hand.page.locator(".red-light").count() == 0


def test_a_cylinder_nobody_tried_is_said_before_the_arc(hand: Hand) -> None:
    """A cylinder whose bead is put off stands at the joint until one is run; what the one before had left is kept."""
    start = at_the_frame(hand)
    hand.tap("foot-gas", "line-B1-T")
    hand.key_in("12")
    assert "Run too low" in hand.page.locator(".notice-strong").inner_text()
    hand.tap("AR-0903", "later", "back", "more-all", "joint-J05")
    assert "B1-T: no test bead since AR-0903 came on" in hand.page.locator(".blocked-note").first.inner_text()
    change = arrived(hand, start)[0]
    assert change["off_values"]["pressure"]["value"] == "12"
    hand.tap("foot-gas", "bead-B1-T", "good", "grade-0", "back")
    assert hand.page.locator(".blocked-note:has-text('test bead')").count() == 0


_NOT_OFFERED = """
const { stock } = strawlineBench.sheet;
stock.cylinders = stock.cylinders.filter((each) => each.cylinder !== 'AR-0903');
"""


def test_a_cylinder_that_is_not_offered_is_found_or_put_on_all_the_same(hand: Hand) -> None:
    """Part of its number finds it in the record; one the shop does not know is kept without a fill lot, offline too."""
    start = at_the_frame(hand)
    hand.page.evaluate(f"() => {{ {_NOT_OFFERED} }}")
    hand.tap("foot-gas", "line-B1-P")
    assert hand.control("AR-0903").count() == 0
    hand.page.fill("#part", "903")
    hand.tap("seek")
    hand.page.wait_for_selector("[data-key='AR-0903']")
    hand.page.context.set_offline(True)
    hand.page.fill("#part", "AR-7777")
    hand.page.wait_for_timeout(_GUARD_MS)
    hand.tap("seek")
    hand.page.wait_for_selector("text=The record does not answer")
    hand.tap("all-the-same")
    hand.page.context.set_offline(False)
    change = arrived(hand, start)[0]
    assert (change["off"], change["on"], change.get("fill_lot")) == ("AR-0902", "AR-7777", None)


def test_what_was_cut_out_begins_another_attempt(hand: Hand) -> None:
    """Tacks cut out are another attempt; a quarter ground out of a seam leaves the rest of it as it stands."""
    start = at_the_frame(hand)
    hand.tap("more-all", "joint-J02", "log", "again", "cut-out", "cut out")
    hand.page.wait_for_selector("text=Attempt 2.")
    hand.tap("log", "again", "log", "again", "cut-out", "q3", "ground out")
    hand.page.wait_for_selector("text=Attempt 3.")
    hand.tap("run-repair", "log")
    told = [(each["kind"], each["attempt"], len(each["quarters"])) for each in arrived(hand, start)]
    assert told[:4] == [("tack", 1, 4), ("removed", 1, 4), ("tack", 2, 4), ("pass", 2, 4)]
    assert told[4:] == [("removed", 2, 1), ("pass", 3, 4)]


def test_a_repair_is_an_attempt_of_its_own(hand: Hand) -> None:
    """Over a seam that stands a repair is the next attempt, its second run is the same one; what was before is left."""
    start = at_the_frame(hand)
    hand.tap("more-all", "joint-J11", "run-root", "log", "again", "run-repair", "q12", "q9", "log", "back")
    hand.tap("more-all", "joint-J11", "run-repair", "log")
    told = [(each["run"], each["attempt"]) for each in arrived(hand, start)]
    assert told == [("root", 1), ("repair", 2), ("repair", 2)]


def test_a_reading_left_out_is_told_late_or_said_to_be_none(hand: Hand) -> None:
    """At the end of the shift the gap nobody logged is told as late, and oxygen nobody read is said to be that."""
    start = at_the_frame(hand)
    hand.tap("more-all", "joint-J12", "log", "again", "run-root", "log", "foot-log", "open-ends")
    tack, root = [each["id"] for each in arrived(hand, start)]
    hand.tap(f"open-reading-{tack}-gap")
    hand.key_in("0.2")
    hand.tap("log", f"open-reading-{root}-oxygen", "nobody")
    gap, note = arrived(hand, start)[2:]
    assert (gap["kind"], gap["values"]["gap"]["value"]) == ("gap", "0.2")
    assert gap["late_reason"] == "told at the end of the shift"
    of_tack = f"strawlineBench.entries().find(({{ id }}) => id === '{tack}').happened"
    assert gap["happened"] == hand.page.evaluate(of_tack)
    assert (note["of"], "nobody read it" in note["change"]["note"]) == (root, True)
    assert hand.page.locator(f"[data-key^='open-reading-{tack}'], [data-key^='open-reading-{root}']").count() == 0
