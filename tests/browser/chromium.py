"""Debian's Chromium as the proofs drive it, and the way to the bench by touch."""

from collections.abc import Iterator
from contextlib import contextmanager

from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

FLAGS = (
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
)  # fmt: skip
LANDSCAPE, PORTRAIT = (1280, 800), (800, 1280)
PATIENCE_MS = 120_000
"""How long a proof waits for what must come; a busy machine takes its time."""


@contextmanager
def chromium(*further: str) -> Iterator[Browser]:
    """Start the browser and end it."""
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path="/usr/bin/chromium", args=[*FLAGS, *further])
        try:
            yield browser
        finally:
            browser.close()


def tablet(browser: Browser, size: tuple[int, int] = LANDSCAPE, **more: object) -> BrowserContext:
    """Open a fresh touch tablet: its own store, its own cookies."""
    width, height = size
    context = browser.new_context(viewport={"width": width, "height": height}, has_touch=True, **more)  # type: ignore[arg-type]
    context.set_default_timeout(PATIENCE_MS)
    return context


def sign_in(page: Page, address: str, person: str, pin: str, device: str = "TAB-A") -> None:
    """Sign in by name and PIN and arrive at the bench."""
    page.goto(f"{address}/sign-in?onward=/bench")
    page.check(f"input[value='{person}']", force=True)
    page.fill("#secret", pin)
    page.evaluate("(name) => document.querySelector('#device').add(new Option(name, name, true, true))", device)
    page.click("button.main")
    page.wait_for_selector(".frame-screen h1")
