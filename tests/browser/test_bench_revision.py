"""A revision that takes effect while the tablet is away from the network."""

from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from tests.browser.chromium import sign_in, tablet
from tests.browser.conftest import Shop
from tests.browser.hand import Hand
from tests.browser.serving import free_port, served
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import PIN, WELDER, open_shop

_CLOCK = """
const real = Date;
globalThis.daysOn = Number(localStorage.getItem('daysOn') ?? 0);
globalThis.Date = class extends real {
  constructor(...told) { told.length ? super(...told) : super(real.now() + globalThis.daysOn * 86400000); }
  static now() { return real.now() + globalThis.daysOn * 86400000; }
};
"""


def in_two_days(folder: Path) -> None:
    """Write the next revision of the tube-to-part procedure: half the oxygen, from the day after tomorrow."""
    text = (folder / "procedures" / "thin_tube_to_machined" / "rev_b.toml").read_text(encoding="utf-8")
    start = (datetime.now(UTC) + timedelta(days=2)).date().isoformat()
    for old, new in (
        ('revision = "B"', 'revision = "C"'),
        ('replaces = "A"', 'replaces = "B"'),
        ("valid_from = 2025-05-05", f"valid_from = {start}"),
        ("oxygen = { high = 20,", "oxygen = { high = 10,"),
    ):
        assert old in text
        text = text.replace(old, new, 1)
    (folder / "procedures" / "thin_tube_to_machined" / "rev_c.toml").write_text(text, encoding="utf-8")


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    """A shop in which a stricter revision is released and not yet in force."""
    record = open_shop(tmp_path, in_two_days)
    try:
        with served(record, tmp_path, free_port()) as address:
            yield Shop(record, tmp_path, address)
    finally:
        record.close()


def test_the_new_revision_judges_from_its_day_on_without_the_network(browser: Browser, shop: Shop) -> None:
    """12 ppm is within today; three days on, still offline, the new card is shown and named, and 12 ppm is outside."""
    context = tablet(browser)
    context.add_init_script(_CLOCK)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN)
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    until(lambda: page.evaluate("navigator.serviceWorker.controller !== null && strawlineBench.sheet !== null"))
    context.set_offline(True)
    hand = Hand(page)
    hand.tap("more-all", "joint-J03", "run-root")
    hand.key_in("12")
    assert "within" in hand.control("ask-oxygen").inner_text()
    assert "T2 rev B" in hand.control("cautions").inner_text()
    assert "new from" not in hand.control("cautions").inner_text()
    page.evaluate("localStorage.setItem('daysOn', '3')")
    page.reload()
    page.wait_for_selector(".joint-screen")
    assert "new from" in hand.control("cautions").inner_text()
    hand.key_in("12")
    assert "allowed at most 10 ppm" in page.locator(".red-light").inner_text()
    hand.log()
    cards = page.evaluate("strawlineBench.sheet.cards")
    digest = next(card["digest"] for card in cards if (card["procedure"], card["revision"]) == ("T2", "C"))
    assert hand.entries()[-1]["card"] == digest
    context.close()
