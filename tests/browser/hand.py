"""A gloved hand at the bench: it only taps, and every tap is counted."""

import time
from contextlib import suppress
from typing import Any

from playwright.sync_api import Error, Locator, Page

from tests.browser.waiting import until

_KEPT_WITHIN_S = 3.0
_SETTINGS = {
    "tungsten": "1.6", "cup": "8", "torch_flow": "9", "pre_purge_flow": "7", "pre_flow": "3", "peak_current": "105",
    "background_current": "20", "on_time": "30", "frequency": "1.8", "purge_flow": "3", "post_flow": "20",
    "mean_current": "45",
}  # fmt: skip
_COUNT = """
if (!window.tapped) {
  addEventListener('click', (tap) => { window.tapped[tap.target.closest('.pad-key') ? 'keys' : 'taps'] += 1; }, true);
  addEventListener('keydown', () => window.tapped.keyboard++, true);
}
window.tapped = {taps: 0, keys: 0, keyboard: 0};
"""


# A tap is answered first and drawn after its frame; a page in the background gets no frame, one being left no answer.
_DRAWN = """() => new Promise((drawn) => {
  requestAnimationFrame(() => setTimeout(drawn));
  setTimeout(drawn, 400);
})"""


class Hand:
    """Taps controls by the name they bear in the page, and waits until what was logged is saved."""

    def __init__(self, page: Page) -> None:
        self.page = page

    def count_from_here(self) -> None:
        """Start counting taps anew."""
        self.page.evaluate(_COUNT)

    def counted(self) -> dict[str, int]:
        """Give the taps on controls, on the number pad, and strokes of any keyboard since counting began."""
        found: dict[str, int] = self.page.evaluate("window.tapped")
        return found

    def control(self, name: str) -> Locator:
        """Find a control."""
        return self.page.locator(f'[data-key="{name}"]').first

    def tap(self, *names: str) -> None:
        """Tap one control after another; a second tap within the guard is no tap, so it waits that long."""
        for name in names:
            self.control(name).tap()
            self.page.wait_for_timeout(60)
            self.wait_until_drawn()

    def key_in(self, digits: str) -> None:
        """Type on the pad on the screen."""
        for digit in digits:
            self.control(f"pad-{digit}").tap()
        self.wait_until_drawn()

    def wait_until_drawn(self) -> None:
        """Wait until what was tapped stands on the screen, or the page is left for another."""
        with suppress(Error):
            self.page.evaluate(_DRAWN)

    def log(self) -> None:
        """Tap the large button and wait for the entry to be kept."""
        before = self.kept()
        self.control("log").tap()
        until(lambda: self.kept() > before)

    def kept(self) -> int:
        """Count the entries this tablet has kept, sent or not."""
        kept = "['waiting', 'taken', 'told'].reduce((sum, at) => sum + strawlineBench[at].length, 0)"
        count: int = self.page.evaluate(kept)
        return count

    def tell_the_shift(self) -> None:
        """Answer what is asked at the first run of a shift, one setting after another."""
        self.tap("shift")
        while self.page.locator(".pad").count():
            asked = self.page.evaluate("document.querySelector('.ask[aria-pressed=true]').dataset.key.slice(5)")
            self.key_in(_SETTINGS[asked])
            self.tap("tell")
        self.tap("back-to-joint")

    def in_the_record(self) -> None:
        """Wait until nothing is left on the tablet."""
        self.page.wait_for_selector("[data-key=state]:has-text('All in the record')")

    def entries(self) -> list[dict[str, Any]]:
        """Give the entries the tablet kept, in its own order, apart from those that only say it opened a frame.

        A busy machine keeps an entry a moment after the tap, so nothing at all is looked at again for a while.
        """
        until = time.monotonic() + _KEPT_WITHIN_S
        while not (found := self._entries()) and time.monotonic() < until:
            self.page.wait_for_timeout(50)
        return found

    def _entries(self) -> list[dict[str, Any]]:
        found: list[dict[str, Any]] = self.page.evaluate(
            "[...strawlineBench.taken, ...strawlineBench.told, ...strawlineBench.waiting]"
            ".sort((a, b) => a.seq - b.seq).map((kept) => kept.entry).filter((entry) => entry.kind !== 'opened')"
        )
        return found
