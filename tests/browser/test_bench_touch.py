"""Logging by touch alone: how many taps a pass costs, and what arrives in the record."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from server.facts.welding import Look, Pass, Tack
from tests.browser.chromium import sign_in, tablet
from tests.browser.conftest import Shop
from tests.browser.hand import Hand
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import FRAME, OPEN_SLEEVES, PIN, WELDER


@pytest.fixture(scope="module")
def hand(browser: Browser, shop: Shop) -> Iterator[Hand]:
    """A welder signed in at the first bench, the first joint tacked and its root run under purge."""
    context = tablet(browser)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN)
    hand = Hand(page)
    hand.tap("step-J01:tacked")
    hand.key_in("0.2")
    hand.log()
    hand.tap("again", "foot-purge")
    hand.key_in("7")
    hand.tap("purge-on", "back")
    hand.tell_the_shift()
    hand.key_in("12")
    hand.log()
    hand.tap("to-frame")
    yield hand
    context.close()


def test_an_ordinary_fill_is_three_taps(hand: Hand) -> None:
    """Next step, log, colour: three taps and the two digits of the oxygen reading, and no keyboard at all."""
    page = hand.page
    page.wait_for_timeout(750)
    hand.count_from_here()
    hand.tap("step-J01:finished")
    hand.key_in("14")
    hand.log()
    page.wait_for_timeout(50)
    hand.tap("grade-0")
    until(lambda: page.evaluate("strawlineBench.entries().some((entry) => entry.kind === 'look')"))
    assert hand.counted() == {"taps": 3, "keys": 2, "keyboard": 0}


def test_what_was_tapped_is_in_the_record(hand: Hand, shop: Shop) -> None:
    """The record has gap, tack, purge, root, fill and look, each understood, each value with how it is known."""
    hand.in_the_record()
    with shop.record.reads() as reads:
        entries = [found.entry for found in reads.frame_entries(FRAME)]
    assert [entry.kind for entry in entries] == ["opened", "gap", "tack", "purge", "pass", "pass", "look"]
    tack, root, fill, look = entries[2], entries[4], entries[5], entries[6]
    assert isinstance(tack, Tack)
    assert isinstance(root, Pass)
    assert isinstance(fill, Pass)
    assert isinstance(look, Look)
    oxygen = fill.values["oxygen"]
    assert (oxygen.value, oxygen.unit, oxygen.how, oxygen.by) == (14.0, "ppm", "read", "PA-1")
    assert (root.values["peak_current"].how, fill.values["peak_current"].how) == ("set", "inherited")
    assert (root.sleeve, fill.sleeve) == ("none", OPEN_SLEEVES[-1])
    assert (fill.torch_line, fill.purge_line, fill.setup, fill.machine) == ("B1-T", "B1-P", "LST-S0", "PS-1")
    assert (look.side, look.zone, look.grade) == ("outside", "bead", 0)


def test_every_entry_names_the_card_the_tablet_showed(hand: Hand, shop: Shop) -> None:
    """Gap, tack, passes and look carry the digest of a card that is in force, and the record finds no other shown."""
    with shop.record.reads() as reads:
        entries = [found.entry for found in reads.frame_entries(FRAME)]
    sheet_cards = hand.page.evaluate("strawlineBench.sheet.cards.map((card) => card.digest)")
    assert {entry.card for entry in entries if entry.kind != "opened"} <= set(sheet_cards)


def test_the_red_light_comes_while_the_reading_is_keyed_in(hand: Hand) -> None:
    """Beyond the limit the tablet says so before anything is logged: value, limit, what to do, caution, whose word."""
    hand.tap("back", "more-all", "joint-J03")
    hand.tap("run-root")
    hand.key_in("41")
    light = hand.page.locator(".red-light").inner_text()
    assert "41 ppm" in light
    assert "at most 20 ppm" in light
    assert "Do not strike" in light
    assert "OSHA" in light
    assert "licensed practice come first" in light
    hand.tap("pad-⌫", "pad-⌫")
    hand.key_in("12")
    assert hand.page.locator(".red-light").count() == 0


def test_a_blocked_step_says_why_and_is_taken_all_the_same(hand: Hand) -> None:
    """The tack that would hide an open seam is named as blocked, in words; done already, it can still be logged."""
    hand.tap("back", "more-all", "joint-J06")
    why = hand.page.locator(".blocked-note").inner_text()
    assert "The top tube would hide 12 o'clock of J02: finish and release J02 first." in why
    hand.key_in("0.1")
    hand.log()
    assert hand.entries()[-1]["joint"] == "J06"


def test_a_reading_left_out_is_an_unknown_and_no_invented_number(hand: Hand) -> None:
    """Logged without its reading, the pass carries no value, and the screen says unknown at once."""
    hand.tap("to-frame", "more-all", "joint-J03", "run-wash", "pad-⌫", "pad-⌫")
    hand.log()
    assert "oxygen" not in hand.entries()[-1]["values"]
    assert "unknown" in hand.page.locator(".result-verdicts").inner_text()
