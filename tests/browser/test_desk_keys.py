"""A decision by keyboard: from the list to the signature in at most six actions, and the record holds it."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from server.record.book_of_lines import Record
from tests.browser.desk_shop import at_the_desk, desk_shop
from tests.story.works import PINS

MOST_ACTIONS = 6


class Counted:
    """Hands that count what they do: one key, one chord or one run of typing is one action."""

    def __init__(self, page: Page) -> None:
        self.page, self.actions = page, 0

    def press(self, key: str) -> None:
        """Press a key or a chord."""
        self.actions += 1
        self.page.keyboard.press(key)

    def type(self, words: str) -> None:
        """Type into whatever has the focus."""
        self.actions += 1
        self.page.keyboard.type(words)

    def click(self, selector: str) -> None:
        """Click something."""
        self.actions += 1
        self.page.click(selector)


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[tuple[Record, str]]:
    with desk_shop(tmp_path) as found:
        yield found


@pytest.fixture
def hand(browser: Browser, shop: tuple[Record, str]) -> Iterator[Counted]:
    page = at_the_desk(browser, shop[1])
    page.goto(f"{shop[1]}/desk")
    yield Counted(page)
    page.context.close()


def decisions(record: Record) -> list[tuple[str, str]]:
    with record.reads() as reads:
        return [(each.choice, each.reason) for each in reads.registers().decisions.values()]


def test_a_decision_takes_six_actions_from_the_list(shop: tuple[Record, str], hand: Counted):
    """To the first row, accept, the reason, on to the signature, the PIN, sign: six, and it is signed."""
    hand.press("j")
    hand.press("1")
    hand.page.wait_for_selector("#reason:focus")
    hand.type("the meter was in the wrong range")
    hand.press("Control+Enter")
    hand.type(PINS["LEA"])
    hand.press("Enter")
    hand.page.wait_for_selector("[role=status]")
    assert hand.actions <= MOST_ACTIONS
    assert decisions(shop[0]) == [("accept", "the meter was in the wrong range")]


def test_by_hand_it_takes_no_more(shop: tuple[Record, str], hand: Counted):
    """Decide, the choice, the reason, into the PIN, the PIN, sign: the choice goes on to the reason by itself."""
    hand.click(".matters tbody tr a.button >> nth=0")
    hand.click("label.choice:has-text('hold') >> nth=0")
    hand.type("asked the laboratory")
    hand.click("#secret")
    hand.type(PINS["LEA"])
    hand.press("Enter")
    hand.page.wait_for_selector("[role=status]")
    assert hand.actions <= MOST_ACTIONS
    assert decisions(shop[0]) == [("hold", "asked the laboratory")]


def test_several_are_held_with_one_reason(shop: tuple[Record, str], hand: Counted):
    """Two rows ticked by keyboard and a digit: both are decided with one reason and one signature."""
    for key in ("j", "x", "j", "x", "7"):
        hand.press(key)
    hand.page.wait_for_selector("#reason:focus")
    assert "Decide on 2 findings" in hand.page.inner_text("h1")
    hand.type("waiting for the laboratory")
    hand.press("Control+Enter")
    hand.type(PINS["LEA"])
    hand.press("Enter")
    hand.page.wait_for_selector("[role=status]")
    assert decisions(shop[0]) == [("hold", "waiting for the laboratory")]
    with shop[0].reads() as reads:
        assert len(next(iter(reads.registers().decisions.values())).findings) == 2


def test_a_digit_in_the_reason_is_a_digit(hand: Counted):
    """Typing 20 ppm into the reason leaves the choice as it was."""
    hand.press("j")
    hand.press("2")
    hand.page.wait_for_selector("#reason:focus")
    hand.type("read 71 ppm")
    assert hand.page.input_value("#reason") == "read 71 ppm"
    assert hand.page.input_value("input[name=choice]:checked") == "rework"
