"""Runs one of the bench's own modules in the browser, as shipped or altered on purpose for a control."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

from playwright.sync_api import Browser, Page, Route

BENCH = Path(__file__).resolve().parents[2] / "server" / "pages" / "bench"
_HOST = "http://scripts.test"


def script_page(browser: Browser, altered: dict[str, Callable[[str], str]] | None = None) -> Page:
    """Open an empty page that can import the bench's modules; `altered` rewrites some of them by name."""
    changes = altered or {}

    def answer(route: Route) -> None:
        name = route.request.url.removeprefix(f"{_HOST}/")
        if not name:
            route.fulfill(content_type="text/html", body="<!doctype html><title>scripts</title>")
            return
        text = (BENCH / name).read_text(encoding="utf-8")
        route.fulfill(content_type="text/javascript", body=changes.get(name, str)(text))

    page = browser.new_page()
    page.route(f"{_HOST}/**", answer)
    page.goto(f"{_HOST}/")
    return page


def run(page: Page, module: str, body: str, given: Any = None) -> Any:
    """Run a function body with the module as `it` and the argument as `given`; gives what it returns."""
    return page.evaluate(f"async (given) => {{ const it = await import('/{module}'); {body} }}", given)


def swapped(old: str, new: str) -> Callable[[str], str]:
    """Make an alteration that must bite: it fails when there is nothing to swap."""

    def alter(text: str) -> str:
        assert old in text, f"nothing to alter: {old}"
        return text.replace(old, new)

    return alter
