"""The traveller printed on A4 in black and white: nothing is lost, and its codes can be read back by their text."""

from playwright.sync_api import Browser

from tests.browser.chromium import sign_in, tablet
from tests.browser.conftest import Shop
from tests.pages.bench.bench_shop import FRAME, PIN, WELDER

_MM = 3.7795


def test_codes_are_large_enough_on_paper(browser: Browser, shop: Shop) -> None:
    """Printed, the frame's code is 30 mm across or more, a joint's 15, and the table keeps inside the sheet."""
    context = tablet(browser, (794, 1123))
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN)
    page.goto(f"{shop.address}/traveller/{FRAME}")
    page.emulate_media(media="print")
    codes = page.locator(".code svg")
    across = [box["width"] for code in codes.all() if (box := code.bounding_box())]
    assert across[0] >= 30 * _MM
    assert min(across[1:]) >= 15 * _MM
    assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
    context.close()


def test_every_row_is_printed(browser: Browser, shop: Shop) -> None:
    """The printed document has a few pages, and its text names the last joint and the last check."""
    context = tablet(browser)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN)
    page.goto(f"{shop.address}/traveller/{FRAME}")
    page.emulate_media(media="print", color_scheme="light")
    words = page.locator("table.traveller").inner_text()
    assert "F14" in words
    assert "G4" in words
    assert len(page.pdf(format="A4")) > 10_000
    context.close()
