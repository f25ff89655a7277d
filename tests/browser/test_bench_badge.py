"""A badge at the bench: one scan hands over, and it stands for the PIN of who looks at a hold point."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page

from server.record.book_of_lines import now_ms
from server.work.badge import print_badge
from server.work.door_told import BY_COMMAND
from tests.browser.chromium import sign_in, tablet
from tests.browser.conftest import Shop
from tests.browser.fake_camera import FAKE_CAMERA
from tests.browser.hand import Hand
from tests.browser.scripts import run, script_page
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import FRAME, LEAD, OTHER_WELDER, PIN, WELDER


@pytest.fixture
def hand(browser: Browser, shop: Shop) -> Iterator[Hand]:
    """A welder at the first bench with a hand scanner that types."""
    context = tablet(browser)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN, "TAB-BADGE")
    until(lambda: page.evaluate("strawlineBench.sheet !== null"))
    yield Hand(page)
    context.close()


# All strokes at once, as a scanner sends them: a busy machine that drives them one by one is slower than any hand.
_STROKES = """
(code) => [...code, "Enter"].forEach((key) => document.activeElement.dispatchEvent(
  new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true })))
"""


def scan(page: Page, code: str) -> None:
    page.evaluate(_STROKES, code)


def badge(shop: Shop, person: str) -> str:
    return print_badge(shop.record, person, BY_COMMAND, now_ms())[1]


def working(page: Page, shop: Shop, person: str) -> None:
    """Wait until the bench says that this person is at it."""
    with shop.record.reads() as reads:
        name = reads.registers().people[person].name
    page.wait_for_selector(f"[data-key=person]:has-text('{name}')")


def test_one_scan_hands_over(hand: Hand, shop: Shop) -> None:
    """Scanned on any screen of the bench, a badge signs its person in and the bench is theirs."""
    hand.tap("foot-gas")
    with hand.page.expect_navigation():
        scan(hand.page, badge(shop, OTHER_WELDER))
    working(hand.page, shop, OTHER_WELDER)
    assert hand.page.evaluate("strawlineBench.person.confirmed")


def test_an_old_badge_is_said_and_changes_nobody(hand: Hand, shop: Shop) -> None:
    """A badge that was replaced leaves who works as they were, and the code is not shown."""
    old = badge(shop, OTHER_WELDER)
    badge(shop, OTHER_WELDER)
    scan(hand.page, old)
    until(lambda: "newer one took its place" in hand.page.inner_text("body"))
    assert old not in hand.page.inner_text("body")
    assert hand.page.evaluate("strawlineBench.person.id") == WELDER


def test_a_badge_is_shown_and_looked_up_nowhere(hand: Hand, shop: Shop) -> None:
    """Read without its beginning, or into the field for a sleeve's number, no part of it stays on the screen."""
    code = badge(shop, OTHER_WELDER)
    asked: list[str] = []
    hand.page.on("request", lambda request: asked.append(request.url))
    hand.tap("foot-gas", "open-sleeve")
    hand.page.fill("#part", code[4:])
    hand.tap("seek")
    assert hand.page.input_value("#part") == ""
    scan(hand.page, code[4:])
    assert "The code was not read whole" in hand.page.inner_text("body")
    assert code[10:20] not in hand.page.inner_text("body")
    assert [each for each in asked if "/api/stock" in each] == []


def test_a_badge_releases_a_hold_point(hand: Hand, shop: Shop) -> None:
    """Who was tapped scans their badge in place of the PIN; another's badge releases nothing."""
    hand.page.evaluate(f"strawlineBench.go({{ screen: 'release', frame: '{FRAME}', joint: 'J05', by: '{LEAD}' }})")
    scan(hand.page, badge(shop, OTHER_WELDER))
    until(lambda: "somebody else" in hand.page.inner_text("body"))
    assert hand.entries() == []
    scan(hand.page, badge(shop, LEAD))
    until(lambda: hand.entries() != [])
    assert [hand.entries()[0][name] for name in ("kind", "joint", "who")] == ["release", "J05", LEAD]


def test_a_badge_scanned_at_the_door(browser: Browser, shop: Shop) -> None:
    """On the page of names a scan signs in wherever the focus is, and no field keeps what was scanned."""
    context = tablet(browser)
    page = context.new_page()
    page.goto(f"{shop.address}/sign-in?onward=/bench")
    page.focus(f"input[value='{WELDER}']")
    scan(page, badge(shop, OTHER_WELDER))
    working(page, shop, OTHER_WELDER)
    context.close()


@pytest.fixture
def door(browser: Browser, shop: Shop) -> Iterator[Page]:
    """The page of names on a device with a camera whose browser reads codes."""
    context = tablet(browser)
    context.add_init_script(FAKE_CAMERA)
    page = context.new_page()
    page.goto(f"{shop.address}/sign-in?onward=/bench")
    yield page
    context.close()


def test_a_badge_held_before_the_camera(door: Page, shop: Shop) -> None:
    """A code that is no badge is passed over; a badge signs in, and the camera that saw it was the rear one."""
    door.click("text=Use the camera")
    until(lambda: door.evaluate("window.looked > 1"))
    assert door.evaluate("window.asked") == ["environment", "qr_code"]
    door.evaluate(f"window.seen = ['{FRAME}/J05', '{badge(shop, OTHER_WELDER)}']")
    working(door, shop, OTHER_WELDER)


def test_a_camera_that_is_refused_leaves_the_other_ways(door: Page) -> None:
    """The page says that the camera cannot be used and what to do, and offers it again."""
    door.evaluate("window.broken = 'camera'")
    door.click("text=Use the camera")
    door.wait_for_selector("[role=status]:has-text('cannot be used (not allowed)')")
    assert door.locator("#badge-form video").count() == 0
    assert door.evaluate("document.activeElement.id") == "badge"
    door.click("text=Use the camera")
    door.wait_for_selector("[role=status]:has-text('cannot be used (not allowed)')")


def test_the_camera_is_off_once_a_badge_was_seen(door: Page, shop: Shop) -> None:
    """The badge is sent with the camera stopped and its picture gone, not when the page happens to go."""
    door.evaluate("document.getElementById('badge-form').addEventListener('submit', (sent) => sent.preventDefault())")
    door.click("text=Use the camera")
    until(lambda: door.evaluate("window.looked > 1"))
    assert door.evaluate("window.tracks.map((each) => each.readyState)") == ["live"]
    code = badge(shop, OTHER_WELDER)
    door.evaluate(f"window.seen = ['{code}']")
    until(lambda: door.input_value("#badge") == code)
    assert door.evaluate("window.tracks.map((each) => each.readyState)") == ["ended"]
    assert door.locator("#badge-form video").count() == 0


_NAMED_OVER = """
const { openStore } = await import('/store.js');
const app = { store: await openStore('named'), go: () => null, sheet: { visitor: given.first } };
const verbs = it.whoIsHere(app);
it.showPerson(app, given.first);
verbs.handOver(given.named);
return given.then.map((visitor) => {
  it.showPerson(app, visitor);
  return [app.person.id, app.person.confirmed];
});
"""


def test_who_was_named_stays_until_there_is_another_sign_in(browser: Browser) -> None:
    """The sign-in from before does not take the work back by itself: not after a refresh, and not once it has ended."""
    first = {"person": "W01", "name": "One", "role": "welder", "since_ms": 1}
    again, other = first | {"since_ms": 2}, {"person": "W02", "name": "Two", "role": "welder", "since_ms": 3}
    named = {"id": "W02", "name": "Two", "roles": ["welder"]}
    page = script_page(browser)
    told = [run(page, "identity.js", _NAMED_OVER, {"first": first, "named": named, "then": then}) for then in (
        [first, None, first, other], [again],
    )]  # fmt: skip
    page.close()
    assert told[0] == [["W02", False], ["W02", False], ["W02", False], ["W02", True]]
    assert told[1] == [["W01", True]]
