"""The owner's page of upkeep reads well: axe finds nothing, nothing runs off the side, and its states are words."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page

from server.record.book_of_lines import now_ms
from server.work.set_pin import set_pin
from tests.browser.chromium import LANDSCAPE, PORTRAIT
from tests.browser.serving import free_port, served
from tests.story.works import PINS
from tests.work.small_shop import open_shop

SIZES = (LANDSCAPE, PORTRAIT, (1440, 900))
_RULES = {
    "runOnly": ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"],
    "rules": {"color-contrast-enhanced": {"enabled": False}},
}


@pytest.fixture(scope="module")
def page(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Page]:
    """A browser in which the owner of a new shop is signed in and came to the page by the line on the serials' page."""
    folder = Path(tmp_path_factory.mktemp("upkeep"))
    record = open_shop(folder)
    set_pin(record, "OWN", PINS["OWN"], now_ms())
    with served(record, folder, free_port()) as address:
        context = browser.new_context()
        told: dict[str, str | float | bool] = {"person": "OWN", "secret": PINS["OWN"], "device": "desk"}
        assert context.request.post(f"{address}/sign-in", form=told).ok
        found = context.new_page()
        found.goto(f"{address}/history")
        found.click("main a[href='/upkeep']")
        found.wait_for_url("**/upkeep")
        yield found
        context.close()
    record.close()


def test_nothing_stands_in_the_way_of_reading(page: Page):
    """Axe finds nothing, and the page is no wider than a laptop, a standing tablet or a desk."""
    found = Axe().run(page, options=_RULES).response
    assert [(each["id"], node["html"][:200]) for each in found["violations"] for node in each["nodes"]] == []
    for width, height in SIZES:
        page.set_viewport_size({"width": width, "height": height})
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth"), (width, height)


def test_each_state_is_a_word(page: Page):
    """Every line says fine, look or mend; without a backup the line of backups says look, and what to do."""
    words = page.locator("main table").first.locator("tbody .word").all_inner_texts()
    assert len(words) >= 8
    assert {word.split()[-1] for word in words} <= {"fine", "look", "mend"}
    row = page.locator("tr", has=page.get_by_role("rowheader", name="Last backup"))
    assert "look" in row.inner_text()
    assert "strawline backup" in row.inner_text()
