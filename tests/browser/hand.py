"""A gloved hand at the bench: it only taps, and every tap is counted."""

import time
from contextlib import suppress
from typing import Any
from weakref import WeakKeyDictionary

from playwright.sync_api import Error, Locator, Page

from tests.browser.waiting import until

_KEPT_WITHIN_S = 3.0
_SAME_TAP_S = 0.6
_SAME_PLACE_PX = 80
_TAPPED: WeakKeyDictionary[Page, tuple[float, float, float]] = WeakKeyDictionary()
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


def in_sight(touched: Locator) -> tuple[float, float]:
    """Bring a control into sight; gives where its middle is then."""
    box, seen = touched.bounding_box(), touched.page.viewport_size
    assert box, "it is not on the screen"
    if not seen or box["y"] < 0 or box["y"] + box["height"] > seen["height"]:
        touched.scroll_into_view_if_needed()
        box = touched.bounding_box() or box
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


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
        """Tap one control after another; one in the place of the last waits until it is no longer the same tap."""
        for name in names:
            self.press(name)
            self.page.wait_for_timeout(60)
            self.wait_until_drawn()

    def press(self, name: str) -> None:
        """Tap a control, as somebody who has seen what stands there now."""
        touched = self.control(name)
        x, y = in_sight(touched)
        before_x, before_y, before_s = _TAPPED.get(self.page, (0, 0, 0))
        soon_s = before_s + _SAME_TAP_S - time.monotonic()
        if soon_s > 0 and abs(x - before_x) + abs(y - before_y) < _SAME_PLACE_PX:
            self.page.wait_for_timeout(soon_s * 1000)
        touched.tap()
        if not name.startswith(("pad-", "pin-")):
            _TAPPED[self.page] = (x, y, time.monotonic())

    def key_in(self, digits: str) -> None:
        """Type on the pad on the screen."""
        for digit in digits:
            self.press(f"pad-{digit}")
        self.wait_until_drawn()

    def wait_until_drawn(self) -> None:
        """Wait until what was tapped stands on the screen, or the page is left for another."""
        with suppress(Error):
            self.page.evaluate(_DRAWN)

    def log(self) -> None:
        """Tap the large button and wait for the entry to be kept."""
        before = self.kept()
        self.press("log")
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
