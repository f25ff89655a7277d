"""Pictures at the bench without network: kept before it is said, sent once, let go only against a receipt."""

import hashlib
import json
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, BrowserContext, FilePayload, Page, Route

from server.facts.supplies import Arrived, Photo
from server.record.files import Files
from tests.browser.chromium import sign_in, tablet
from tests.browser.conftest import Shop
from tests.browser.hand import Hand
from tests.browser.scripts import run, script_page
from tests.browser.waiting import until
from tests.documents.drawn_picture import as_bytes, drawn, from_a_telephone
from tests.pages.bench.bench_shop import FRAME, PIN, WELDER

_SOON_MS = 120_000


class PhotoLink:
    """Stands on the way of pictures; `lose_answers` lets so many be taken unanswered."""

    def __init__(self, context: BrowserContext) -> None:
        self.lose_answers = 0
        self.sent = 0
        context.route("**/api/photos*", self._pass)

    def _pass(self, route: Route) -> None:
        self.sent += 1
        if self.lose_answers:
            self.lose_answers -= 1
            route.fetch()
            route.abort("connectionreset")
        else:
            route.continue_()


def shell_kept(page: Page) -> None:
    """Wait until the page can be opened again without network."""
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    until(lambda: page.evaluate("navigator.serviceWorker.controller !== null"))


def take(hand: Hand, content: bytes, name: str = "picture") -> None:
    """Tap the control that opens the camera and let it give this picture; wait until its entry is kept."""
    before = hand.kept()
    with hand.page.expect_file_chooser() as asked:
        hand.tap(name)
    asked.value.set_files(FilePayload(name="camera.jpg", mimeType="image/jpeg", buffer=content))
    until(lambda: hand.kept() > before)


def told(shop: Shop, device: str) -> tuple[list[Photo], list[Arrived]]:
    """Give the pictures a tablet named and the pictures that arrived from it."""
    with shop.record.reads() as reads:
        every = [each.entry for each in reads.every_entry()]
    named = [each for each in every if isinstance(each, Photo) and each.device == device]
    arrived = [each for each in every if isinstance(each, Arrived)]
    return named, [each for each in arrived if each.sha256 in {photo.sha256 for photo in named}]


def test_a_picture_taken_offline_arrives_once(browser: Browser, shop: Shop) -> None:
    """Taken without network, kept over a reload, sent twice as the first answer is lost: one arrival of these bytes."""
    context = tablet(browser)
    page, link = context.new_page(), PhotoLink(context)
    sign_in(page, shop.address, WELDER, PIN, "TAB-A")
    shell_kept(page)
    hand = Hand(page)
    context.set_offline(True)
    hand.tap("more-all", "joint-J03", "photo", "side-inside")
    take(hand, from_a_telephone(drawn(size=(2600, 1900)), turned=6), "take-picture")
    page.wait_for_selector(".picture-kept:has-text('Saved on this tablet')")
    page.reload()
    # The frame opened, the picture's entry, and the picture itself.
    page.wait_for_selector("[data-key=state]:has-text('On this tablet: 3')")
    assert page.locator(".picture-kept img").evaluate("(it) => it.decode().then(() => it.naturalHeight)") == 2000
    link.lose_answers = 1
    context.set_offline(False)
    page.wait_for_selector("[data-key=state]:has-text('All in the record')", timeout=_SOON_MS)
    page.wait_for_selector(".picture-kept:has-text('In the record')")
    (named,), (arrived,) = told(shop, "TAB-A")
    assert (named.frame, named.joint, named.side, named.zone, named.attempt) == (FRAME, "J03", "inside", "bead", 1)
    assert named.sha256 == arrived.sha256 == arrived.kept_sha256
    assert (arrived.width_px, arrived.height_px, arrived.frame, arrived.sent_by) == (1462, 2000, FRAME, "TAB-A")
    kept = Files(shop.folder).read(named.sha256)
    assert kept is not None
    assert hashlib.sha256(kept).hexdigest() == named.sha256
    assert b"Invented" not in kept
    assert len(kept) < 2_000_000
    assert link.sent >= 2
    context.close()


def test_the_look_that_follows_names_its_picture(browser: Browser, shop: Shop) -> None:
    """A picture taken on the look's own screen is named by the look of that side and zone, and by no other."""
    context = tablet(browser)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN, "TAB-C")
    hand = Hand(page)
    hand.tap("more-all", "joint-J04", "look")
    take(hand, as_bytes(drawn("#8a5a2b")))
    page.wait_for_selector(".picture-button:has-text('Picture taken, saved')")
    hand.tap("grade-1", "to-frame", "more-all", "joint-J04", "look", "zone-edge", "grade-2")
    hand.in_the_record()
    photo, with_it, without = hand.entries()[-3:]
    assert (photo["kind"], with_it["photo"]) == ("photo", photo["sha256"])
    assert "photo" not in without
    context.close()


def test_a_picture_is_looked_at_large_by_keyboard(browser: Browser, shop: Shop) -> None:
    """From the joint's page to the first picture, on to the next by arrow, and back to the joint by Escape."""
    context = tablet(browser)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN, "TAB-H")
    hand = Hand(page)
    hand.tap("more-all", "joint-J06", "photo")
    for tint in ("#0f0", "#f0f"):
        take(hand, as_bytes(drawn(tint)), "take-picture")
        page.wait_for_timeout(800)
    hand.in_the_record()
    joint = f"{shop.address}/history/{FRAME}/J06"
    page.goto(joint)
    first, second = page.locator(".photo a").all()
    after = second.get_attribute("href")
    first.click()
    page.wait_for_selector(".photo-large")
    assert page.locator(".photo-large img").evaluate("(it) => it.decode().then(() => it.naturalWidth)") == 320
    page.keyboard.press("ArrowRight")
    page.wait_for_url(f"{shop.address}{after}")
    page.keyboard.press("Escape")
    page.wait_for_url(joint)
    context.close()


def test_an_entry_never_waits_for_its_picture(browser: Browser, shop: Shop) -> None:
    """While no picture gets through, entries go; the picture is counted until its receipt has come."""
    context = tablet(browser)
    page = context.new_page()
    context.route("**/api/photos*", lambda route: route.abort("internetdisconnected"))
    sign_in(page, shop.address, WELDER, PIN, "TAB-D")
    hand = Hand(page)
    hand.tap("more-all", "joint-J05", "photo")
    take(hand, as_bytes(drawn("#7b4fa0")), "take-picture")
    until(lambda: page.evaluate("strawlineBench.waiting.length") == 0)
    assert page.locator("[data-key=state]").inner_text().startswith("▲ On this tablet: 1")
    assert [len(each) for each in told(shop, "TAB-D")] == [1, 0]
    context.unroute("**/api/photos*")
    hand.tap("state", "send")
    hand.in_the_record()
    assert [len(each) for each in told(shop, "TAB-D")] == [1, 1]
    context.close()


def test_what_the_record_refuses_stays_and_is_said(browser: Browser, shop: Shop) -> None:
    """Bytes that are no picture are refused once, kept on the tablet, named there, and block nothing behind them."""
    context = tablet(browser)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN, "TAB-E")
    hand = Hand(page)
    page.evaluate(
        "async () => { const open = indexedDB.open('strawline-photos');"
        " await new Promise((ok) => { open.onsuccess = ok; });"
        " const put = open.result.transaction('waiting', 'readwrite').objectStore('waiting').put("
        "{sha256: 'f'.repeat(64), blob: new Blob(['no picture']), joint: 'J05', side: 'outside', taken: '2020'});"
        " await new Promise((ok) => { put.onsuccess = ok; }); await strawlineBench.refresh(); }"
    )
    hand.tap("more-all", "joint-J05", "photo")
    take(hand, as_bytes(drawn("#2f63b5")), "take-picture")
    until(lambda: len(told(shop, "TAB-E")[1]) == 1)
    page.wait_for_selector("[data-key=state]:has-text('On this tablet: 1')")
    hand.tap("state")
    page.wait_for_selector("text=not taken: photo: the file is none that can be read")
    context.close()


def test_a_rescue_file_carries_pictures(browser: Browser, shop: Shop, tmp_path: Path) -> None:
    """Saved on a tablet that cannot send and loaded on another, the picture arrives; a spoilt one does not."""
    context = tablet(browser)
    page = context.new_page()
    context.route("**/api/**", lambda route: route.abort() if route.request.method == "POST" else route.continue_())
    sign_in(page, shop.address, WELDER, PIN, "TAB-F")
    hand = Hand(page)
    hand.tap("more-all", "joint-J02", "photo")
    take(hand, as_bytes(drawn("#6fae8a")), "take-picture")
    with page.expect_download() as saved:
        hand.tap("state", "rescue-save")
    text = Path(saved.value.path()).read_text(encoding="utf-8")
    context.close()
    found = json.loads(text)
    spoilt = found["photos"][0] | {"sha256": "0" * 64}
    file = tmp_path / "rescue.json"
    file.write_text(json.dumps(found | {"photos": [*found["photos"], spoilt]}), encoding="utf-8")
    other = tablet(browser)
    page = other.new_page()
    sign_in(page, shop.address, WELDER, PIN, "TAB-G")
    hand = Hand(page)
    hand.tap("state")
    with page.expect_file_chooser() as asked:
        hand.tap("rescue-load")
    asked.value.set_files(file)
    page.wait_for_selector("text=and 1 picture; 1 are spoilt")
    hand.in_the_record()
    assert [len(each) for each in told(shop, "TAB-F")] == [1, 1]
    other.close()


def test_the_tablets_own_digest_is_the_standards(browser: Browser) -> None:
    """Where plain http leaves out the browser's SHA-256, the tablet's own gives the same at every length."""
    page = script_page(browser)
    body = (
        "const found = []; for (let n = 0; n < 130; n += 1) found.push(Array.from("
        "it.reckoned(Uint8Array.from({length: n}, (_, at) => (at * 37 + n) % 256)),"
        " (b) => b.toString(16).padStart(2, '0')).join('')); return found;"
    )
    found: list[Any] = run(page, "sha256.js", body)
    expected = [hashlib.sha256(bytes((at * 37 + n) % 256 for at in range(n))).hexdigest() for n in range(130)]
    assert found == expected
    page.close()


def test_a_tablet_that_lets_go_without_a_receipt_loses_the_picture(browser: Browser) -> None:
    """Control: any answer but the receipt for this very picture keeps it; a careless test of it would let it go."""
    page = script_page(browser)
    answers = [None, {}, {"sha256": "a"}, {"sha256": "b", "receipt": {"taken": "taken", "leaf": "00"}}]
    good = {"sha256": "a", "receipt": {"taken": "taken before", "leaf": "00"}}
    body = "return given.map((said) => it.isReceiptForPhoto(said, 'a'))"
    assert run(page, "photo_store.js", body, [*answers, good]) == [False, False, False, False, True]
    page.close()
