"""Codes by hand scanner or by typing: they lead where they point, and an unknown one blocks nothing."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser

from tests.browser.chromium import sign_in, tablet
from tests.browser.conftest import Shop
from tests.browser.hand import Hand
from tests.browser.scripts import run, script_page, swapped
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import FRAME, OPEN_SLEEVES, OTHER_FRAME, PIN, WELDER


@pytest.fixture
def hand(browser: Browser, shop: Shop) -> Iterator[Hand]:
    """A welder at the first bench with a hand scanner that types."""
    context = tablet(browser)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN, "TAB-SCAN")
    until(lambda: page.evaluate("strawlineBench.sheet !== null"))
    yield Hand(page)
    context.close()


_SCAN = """(code) => {
  const struck = (key) => new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true });
  for (const key of [...code, "Enter"]) document.activeElement.dispatchEvent(struck(key));
}"""


def scan(hand: Hand, code: str) -> None:
    """A scanner types quickly and ends with Enter; struck within the page: no busy driver draws the keys apart."""
    hand.page.evaluate(_SCAN, code)


def heading(hand: Hand) -> str:
    return hand.page.locator("h1").first.inner_text()


def test_a_travellers_codes_lead_to_frame_and_joint(hand: Hand) -> None:
    """The frame's code opens the frame, the joint's the joint, from whatever screen the tablet is on."""
    hand.tap("foot-gas")
    scan(hand, OTHER_FRAME)
    assert heading(hand) == f"Next on {OTHER_FRAME}"
    scan(hand, f"{FRAME}/J05")
    assert heading(hand) == "J05 top tube on head tube"


def test_an_open_sleeve_is_taken_for_the_fill_at_hand(hand: Hand) -> None:
    """Scanned at a joint, an open sleeve is the one this run names; nothing was logged by scanning."""
    scan(hand, f"{FRAME}/J05")
    hand.tap("run-fill")
    scan(hand, OPEN_SLEEVES[0])
    assert OPEN_SLEEVES[0] in hand.control("sleeve").inner_text()
    assert hand.kept() == 0


def test_a_cylinder_asks_for_its_line(hand: Hand) -> None:
    """A scanned cylinder goes on the line tapped, its fill lot with it."""
    scan(hand, "AR-0903")
    hand.tap("on-B1-T")
    change = hand.entries()[0]
    assert [change[name] for name in ("line", "off", "on", "fill_lot")] == ["B1-T", "AR-0901", "AR-0903", "L-901"]


def test_an_unknown_code_is_said_and_blocks_nothing(hand: Hand) -> None:
    """A code nobody knows leaves the screen as it is, with a sentence, and the next tap works."""
    scan(hand, "NO-SUCH-THING")
    assert "“NO-SUCH-THING” is not known at this bench" in hand.page.locator(".notice-strong").inner_text()
    hand.tap("step-J01:tacked")
    assert heading(hand) == "J01 seat tube on shell"
    assert hand.page.locator(".notice-strong").count() == 0


def test_a_code_can_be_typed(hand: Hand) -> None:
    """Without scanner and camera the code is typed; a sleeve from stock is then the only one offered to open."""
    hand.tap("foot-gas", "scan")
    hand.page.fill("#code", " FT-0903 ")
    hand.tap("code-go")
    assert hand.page.locator(".tile").all_inner_texts() == ["FT-0903\nERTi-2 0.9 mm", "Show all offered"]


def test_slow_typing_is_no_scan(hand: Hand) -> None:
    """Keys struck as a person strikes them are not taken for a scanner."""
    hand.page.keyboard.type(OTHER_FRAME, delay=150)
    hand.page.keyboard.press("Enter")
    assert heading(hand) == f"Next on {FRAME}"


_WEDGE = """
const told = { went: [], kept: [], scanNote: null };
const app = {
  sheet: { stock: { sleeves: [], cylinders: [] } }, sleeves: [], where: {},
  frames: ["MT-0402", "T-0402"].map((frame) => ({ frame, joints: [] })),
  go: (where) => told.went.push(where.frame), draw() {} };
let hear = null;
it.listenToWedge(app, { addEventListener: (_, heard) => { hear = heard; } });
let timeStamp = 1000;
for (const [key, gap] of given) {
  timeStamp += gap;
  hear({ key, timeStamp, target: {}, preventDefault: () => told.kept.push(key) });
}
return [told.went, told.kept];
"""
"""Keys with the milliseconds before each; where it led, and what was kept from the element that has the focus."""


def struck(code: str, gap_ms: int = 10, **late_ms: int) -> list[tuple[str, int]]:
    """The keys of a code and its Enter at one pace, some of them late; `e` is the Enter, `k3` the fourth key."""
    keys = [(key, late_ms.get(f"k{place}", gap_ms)) for place, key in enumerate(code)]
    return [*keys, ("Enter", late_ms.get("e", gap_ms))]


_STRUCK: list[tuple[list[tuple[str, int]], list[list[str]]]] = [
    (struck("MT-0402"), [["MT-0402"], ["Enter"]]),
    (struck("MT-0402", k1=400), [["MT-0402"], ["Enter"]]),
    (struck("MT-0402", e=400), [["MT-0402"], ["Enter"]]),
    (struck("MT-0402", k0=9000, k4=120, k5=120), [["MT-0402"], ["Enter"]]),
    (struck("x", 9000)[:1] + struck("MT-0402", k0=2000), [["MT-0402"], ["Enter"]]),
    (struck("MT-0402", 150), [[], ["Enter"]]),
    ([("Enter", 5000)], [[], []]),
    ([*struck("MT-0402"), ("Enter", 20), ("Enter", 5000)], [["MT-0402"], ["Enter", "Enter"]]),
]


def test_a_stuttering_scanner_is_read_whole(browser: Browser) -> None:
    """One late key cuts no code in two and presses nothing; a person's pace is no scan, and Enter alone stays Enter."""
    page = script_page(browser)
    assert [run(page, "scan.js", _WEDGE, keys) for keys, _ in _STRUCK] == [said for _, said in _STRUCK]
    page.close()


def test_who_cuts_a_code_at_a_late_key_is_found_out(browser: Browser) -> None:
    """Control: where a tenth of a second begins another code, a late key loses what came before, and leads astray."""
    page = script_page(browser, {"scan.js": swapped("const SAME_CODE_MS = 500;", "const SAME_CODE_MS = 80;")})
    assert run(page, "scan.js", _WEDGE, _STRUCK[1][0]) == [["T-0402"], ["Enter"]]
    assert run(page, "scan.js", _WEDGE, _STRUCK[2][0]) == [[], []]
    page.close()
