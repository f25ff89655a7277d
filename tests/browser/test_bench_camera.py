"""Codes by camera, where the browser reads them: they lead where they point, and a camera that fails blocks nothing."""

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page

from tests.browser.chromium import sign_in, tablet
from tests.browser.conftest import Shop
from tests.browser.fake_camera import FAKE_CAMERA
from tests.browser.hand import Hand
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import FRAME, OTHER_FRAME, PIN, WELDER


@pytest.fixture
def page(browser: Browser, shop: Shop) -> Iterator[Page]:
    """A welder on the scan screen of a tablet with a camera whose browser reads codes."""
    context = tablet(browser)
    context.add_init_script(FAKE_CAMERA)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN, "TAB-CAM")
    until(lambda: page.evaluate("strawlineBench.sheet !== null"))
    Hand(page).tap("foot-gas", "scan")
    yield page
    context.close()


def heading(page: Page) -> str:
    return page.locator("h1").first.inner_text()


def test_what_the_camera_sees_is_taken_and_the_camera_let_go(page: Page) -> None:
    """The rear camera is asked for, QR codes are looked for, the joint opens, and no track is left running."""
    Hand(page).tap("camera")
    until(lambda: page.evaluate("window.looked > 2"))
    page.evaluate(f"window.seen = ['{FRAME}/J05']")
    until(lambda: heading(page) == "J05 top tube on head tube")
    assert page.evaluate("window.asked") == ["qr_code", "environment"]
    until(lambda: page.evaluate("window.tracks.every((track) => track.readyState === 'ended')"))


def test_a_code_nobody_knows_is_said_and_the_camera_can_be_used_again(page: Page) -> None:
    """An unknown code leaves the screen standing with a sentence; the next one is taken."""
    Hand(page).tap("camera")
    page.evaluate("window.seen = ['NOT-OURS']")
    page.wait_for_selector(".notice-strong:has-text('“NOT-OURS” is not known')")
    page.wait_for_timeout(720)
    Hand(page).tap("camera")
    page.evaluate(f"window.seen = ['{OTHER_FRAME}']")
    until(lambda: heading(page) == f"Next on {OTHER_FRAME}")


@pytest.mark.parametrize("broken", ["camera", "reader"])
def test_a_camera_that_fails_blocks_nothing(page: Page, broken: str) -> None:
    """Refused by the browser, or never reading a code: typing beside it and the way back still work."""
    page.evaluate("(what) => { window.broken = what; }", broken)
    Hand(page).tap("camera")
    if broken == "camera":
        page.wait_for_selector(".notice-strong:has-text('The camera cannot be used')")
    page.fill("#code", f"{FRAME}/J03")
    Hand(page).tap("code-go")
    assert heading(page).startswith("J03")


def test_leaving_the_screen_lets_the_camera_go(page: Page) -> None:
    """Somebody who taps on instead of scanning leaves no camera running behind."""
    Hand(page).tap("camera")
    until(lambda: page.evaluate("window.looked > 1"))
    Hand(page).tap("foot-log")
    until(lambda: page.evaluate("window.tracks.every((track) => track.readyState === 'ended')"))


def test_without_a_reader_no_camera_is_offered(browser: Browser, shop: Shop) -> None:
    """A browser that reads no codes says so and offers the field alone."""
    context = tablet(browser)
    context.add_init_script("delete window.BarcodeDetector")
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN, "TAB-NOCAM")
    Hand(page).tap("foot-gas", "scan")
    assert Hand(page).control("camera").count() == 0
    assert "cannot read codes by camera" in page.locator(".nothing-asked").inner_text()
    context.close()
