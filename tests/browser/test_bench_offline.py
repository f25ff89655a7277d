"""A shift without network: nothing that was shown as saved is lost, and nothing arrives twice."""

from typing import Any

from playwright.sync_api import Browser, Page

from server.occasions.clocks import Clocks
from server.record.book_of_lines import now_ms
from tests.browser.chromium import sign_in, tablet
from tests.browser.conftest import Shop
from tests.browser.hand import Hand
from tests.browser.link import Link
from tests.browser.scripts import BENCH, swapped
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import FRAME, PIN, WELDER

_SOON_MS = 120_000
_LOG = """
async (count) => { for (let n = 0; n < count; n += 1) {
  await strawlineBench.log({ kind: "clean", frame: strawlineBench.frame.frame, joint: "J05", method: `wipe ${n}` });
} strawlineBench.draw(); }
"""


_LOG_OF_NO_FRAME = """
async (count) => { for (let n = 0; n < count; n += 1) {
  await strawlineBench.log({ kind: "problem", words: `two tabs ${n}`, what: "other" });
} strawlineBench.draw(); }
"""


def log_many(page: Page, count: int) -> None:
    """Log entries through the tablet's own verb, faster than a hand could tap."""
    page.evaluate(_LOG, count)


def shell_kept(page: Page) -> None:
    """Wait until the service worker holds everything and serves this page."""
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    until(lambda: page.evaluate("navigator.serviceWorker.controller !== null"))


def received(shop: Shop, device: str) -> list[Any]:
    """Give the entries of one tablet in the order of arrival."""
    with shop.record.reads() as reads:
        return [found.entry for found in reads.every_entry() if found.entry.device == device]


def repeated(shop: Shop, ids: list[str]) -> int:
    """Count the sendings that were taken before."""
    with shop.record.reads() as reads:
        return sum(s.state == "taken before" for sent in reads.sendings(ids).values() for s in sent)


def test_sixty_entries_offline_arrive_once_each_in_order(browser: Browser, shop: Shop) -> None:
    """60 entries, a reload without network, then a link that loses the first answers: 60 once each, in device order."""
    context = tablet(browser)
    page, link = context.new_page(), Link(context)
    sign_in(page, shop.address, WELDER, PIN, "TAB-A")
    shell_kept(page)
    hand = Hand(page)
    context.set_offline(True)
    hand.tap("step-J01:tacked")
    hand.key_in("0.2")
    hand.log()
    log_many(page, 37)
    page.reload()
    page.wait_for_selector("[data-key=state]:has-text('On this tablet: 40')")
    log_many(page, 20)
    link.lose_answers = 2
    context.set_offline(False)
    page.wait_for_selector("[data-key=state]:has-text('All in the record')", timeout=_SOON_MS)
    entries = received(shop, "TAB-A")
    assert [entry.seq for entry in entries] == list(range(1, 61))
    assert len({entry.boot for entry in entries}) == 2
    assert repeated(shop, [entry.id for entry in entries]) >= 40
    context.close()


def test_a_killed_tab_keeps_what_it_said_was_saved(browser: Browser, shop: Shop) -> None:
    """The tab dies right after “saved”; opened again it shows the entry waiting, and sends it."""
    context = tablet(browser)
    page, link = context.new_page(), Link(context)
    sign_in(page, shop.address, WELDER, PIN, "TAB-KILLED")
    link.cut = True
    log_many(page, 2)
    page.close()
    again = context.new_page()
    again.goto(f"{shop.address}/bench")
    again.wait_for_selector("[data-key=state]:has-text('On this tablet: 3')")
    link.cut = False
    again.evaluate("strawlineBench.send()")
    again.wait_for_selector("[data-key=state]:has-text('All in the record')", timeout=_SOON_MS)
    assert [entry.seq for entry in received(shop, "TAB-KILLED")] == [1, 2, 3]
    context.close()


def test_two_tabs_share_one_count_and_one_outbox(browser: Browser, shop: Shop) -> None:
    """Two tabs log at once: every entry has a count of its own, arrives once, and both tabs show the same."""
    context = tablet(browser)
    first, second, link = context.new_page(), context.new_page(), Link(context)
    sign_in(first, shop.address, WELDER, PIN, "TAB-Q")
    second.goto(f"{shop.address}/bench")
    second.wait_for_selector(".frame-screen h1")
    link.cut = True
    start = first.evaluate("strawlineBench.sheet.seen")
    for page in (first, second):
        page.evaluate(f"window.logged = ({_LOG_OF_NO_FRAME})(10)")
    for page in (first, second):
        page.evaluate("window.logged")
        page.wait_for_selector("[data-key=state]:has-text('On this tablet: 20')")
    link.cut = False
    for page in (first, second):
        page.evaluate("strawlineBench.send()")
    first.wait_for_selector("[data-key=state]:has-text('All in the record')", timeout=_SOON_MS)
    counts = [entry.seq for entry in received(shop, "TAB-Q") if entry.seq > start]
    assert counts == list(range(start + 1, start + 21))
    context.close()


def test_an_updated_app_keeps_unsent_entries(browser: Browser, shop: Shop, monkeypatch: Any) -> None:
    """A new build takes over while five entries wait, says so and is taken in by a tap: five wait, then arrive."""
    context = tablet(browser)
    page, link = context.new_page(), Link(context)
    sign_in(page, shop.address, WELDER, PIN, "TAB-C")
    shell_kept(page)
    link.cut = True
    log_many(page, 4)
    monkeypatch.setattr("server.pages.bench.shell._digest", lambda _: "0123456789ab")
    page.evaluate("navigator.serviceWorker.getRegistration().then((found) => found.update())")
    until(lambda: page.evaluate("caches.keys()") == ["strawline-bench-0123456789ab"])
    page.click("[data-key=state]:has-text('newer bench')")
    with page.expect_navigation():
        page.click("[data-key=take-newer]")
    page.wait_for_selector("[data-key=state]:has-text('On this tablet: 5')")
    assert page.evaluate("document.querySelector('script[type=module]').src").endswith("/0123456789ab/bench.js")
    link.cut = False
    page.evaluate("strawlineBench.send()")
    page.wait_for_selector("[data-key=state]:has-text('All in the record')", timeout=_SOON_MS)
    assert [entry.seq for entry in received(shop, "TAB-C")] == [1, 2, 3, 4, 5]
    context.close()


def test_a_bench_over_plain_http_says_that_a_newer_one_has_come(browser: Browser, shop: Shop, monkeypatch: Any) -> None:
    """Without a service worker the sheet's answer tells; without the network the page is not given up for it."""
    context = tablet(browser, service_workers="block")
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN, "TAB-HTTP")
    until(lambda: page.evaluate("strawlineBench.sheet !== null"))
    assert page.locator("[data-key=state]:has-text('newer bench')").count() == 0
    monkeypatch.setattr("server.pages.bench.shell._digest", lambda _: "0123456789ab")
    page.evaluate("dispatchEvent(new Event('online'))")
    page.click("[data-key=state]:has-text('newer bench')")
    context.set_offline(True)
    page.click("[data-key=take-newer]")
    page.wait_for_selector("[data-key=take-newer]:has-text('does not answer')")
    context.set_offline(False)
    page.wait_for_timeout(750)
    with page.expect_navigation():
        page.click("[data-key=take-newer]")
    assert page.evaluate("document.querySelector('script[type=module]').src").endswith("/0123456789ab/bench.js")
    context.close()


def test_a_clock_forty_seven_minutes_slow_costs_nothing(browser: Browser, shop: Shop) -> None:
    """Entries of a tablet whose clock is 47 minutes slow are taken, and their true time comes out within seconds."""
    context = tablet(browser)
    context.add_init_script(
        "const real = Date, slow = 47 * 60000; globalThis.Date = class extends real {"
        " constructor(...told) { told.length ? super(...told) : super(real.now() - slow); }"
        " static now() { return real.now() - slow; } };"
    )
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN, "TAB-SLOW")
    log_many(page, 1)
    Hand(page).in_the_record()
    entries = received(shop, "TAB-SLOW")
    with shop.record.reads() as reads:
        clocks = Clocks(reads.clock_pairs())
    behind_min = [(now_ms() - entry.device_time) / 60_000 for entry in entries]
    assert len(behind_min) == 2
    assert all(47 <= each < 52 for each in behind_min)
    assert all(abs(now_ms() - clocks.stamp(entry).at_ms) < _SOON_MS for entry in entries)
    context.close()


def test_a_store_that_refuses_is_said_loudly(browser: Browser, shop: Shop) -> None:
    """When the browser keeps nothing more, the screen says not saved, keeps what was typed, and counts nothing."""
    context = tablet(browser)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN, "TAB-A")
    hand = Hand(page)
    before = hand.kept()
    page.evaluate(
        "() => { IDBObjectStore.prototype.add = () => {"
        " throw new DOMException('no room left', 'QuotaExceededError'); }; }"
    )
    hand.tap("more-all", "joint-J04")
    hand.key_in("0.2")
    hand.tap("log")
    page.wait_for_selector(".red-light:has-text('Not saved: no room left')")
    assert hand.kept() == before
    assert page.locator(".pad-value").inner_text() == "0.2 mm"
    context.close()


def test_a_tablet_that_lets_go_without_a_receipt_loses_entries(browser: Browser, shop: Shop) -> None:
    """Control: a sender that takes any answer for a receipt empties its outbox while the record has nothing."""
    context = tablet(browser, service_workers="block")
    page, link = context.new_page(), Link(context)
    careless = swapped(
        "settle(store, receiptsIn(said))",
        "settle(store, waiting.map(({ id }) => ({ entry: id, taken: 'taken', leaf: '' })))",
    )
    text = careless((BENCH / "sender.js").read_text(encoding="utf-8"))
    context.route("**/sender.js", lambda route: route.fulfill(content_type="text/javascript", body=text))
    sign_in(page, shop.address, WELDER, PIN, "TAB-CARELESS")
    link.cut = True
    log_many(page, 4)
    page.wait_for_selector("[data-key=state]:has-text('All in the record')")
    assert received(shop, "TAB-CARELESS") == []
    context.close()


def test_frames_of_other_tablets_are_seen_after_the_next_sheet(browser: Browser, shop: Shop) -> None:
    """What another tablet logged on a frame stands on this one once it has fetched its sheet."""
    with shop.record.reads() as reads:
        tacked = any(found.entry.kind == "tack" for found in reads.frame_entries(FRAME))
    context = tablet(browser)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN, "TAB-NEW")
    until(lambda: page.evaluate("strawlineBench.sheet !== null"))
    assert page.evaluate("strawlineBench.progress().joints.J01.tacked") is tacked is True
    context.close()
