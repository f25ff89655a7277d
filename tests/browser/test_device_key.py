"""A tablet's own key in a real browser: made when it is enrolled, kept from every script, asked for before a PIN."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from fastapi import FastAPI
from playwright.sync_api import Browser, BrowserContext, Page

from server.record.book_of_lines import Record, now_ms
from tests.browser.chromium import tablet
from tests.browser.serving import free_port, served
from tests.pages.bench.bench_shop import PIN, WELDER, open_shop

_EXPORTED = """
() => new Promise((done) => {
  const asked = indexedDB.open("strawline-device", 1);
  asked.onsuccess = () => {
    const got = asked.result.transaction("key").objectStore("key").get("own");
    got.onsuccess = () => crypto.subtle.exportKey("pkcs8", got.result)
      .then(() => done("read out"), (no) => done(no.name));
  };
})
"""


class Place:
    """A served shop whose invitations a test gives, and the tablet that took one."""

    def __init__(self, app: FastAPI) -> None:
        self.app = app
        self.address = ""

    def invite(self, device: str) -> str:
        """Give an invitation and where it leads."""
        token = self.app.state.invitations.give(device, device, None, now_ms())
        return f"{self.address}/enrol#{token}"


@pytest.fixture(scope="module")
def record(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[Record, Path]]:
    """A record with two frames in work."""
    folder = tmp_path_factory.mktemp("shop")
    opened = open_shop(folder)
    yield opened, folder
    opened.close()


@pytest.fixture(scope="module")
def place(record: tuple[Record, Path]) -> Iterator[Place]:
    """The shop, served; its application is at hand."""
    found: list[Place] = []

    def around(app: FastAPI) -> FastAPI:
        found.append(Place(app))
        return app

    with served(*record, free_port(), around) as address:
        found[0].address = address
        yield found[0]


def enrolled(place: Place, browser: Browser, device: str) -> tuple[BrowserContext, Page]:
    context = tablet(browser)
    page = context.new_page()
    page.goto(place.invite(device))
    page.click("#enrol button.main")
    page.wait_for_selector(f"#enrolled:has-text('{device}')")
    return context, page


def test_the_key_is_made_and_asked_for(place: Place, browser: Browser, record: tuple[Record, Path]) -> None:
    """Enrolled with the public half, the tablet proves the other by itself, and its welder signs in on it by PIN."""
    context, page = enrolled(place, browser, "TAB-9")
    with record[0].reads() as reads:
        [device] = [each for each in reads.devices() if each.id == "TAB-9"]
    assert device.public_key
    page.check(f"input[value='{WELDER}']", force=True)
    page.fill("#secret", PIN)
    page.click("button.main")
    page.wait_for_selector("a[href='/own'], [data-key=person]")
    with record[0].reads() as reads:
        assert [each.device for each in reads.sessions(now_ms())] == ["TAB-9"]
    context.close()


def test_the_invitation_stands_in_no_address(place: Place, browser: Browser) -> None:
    """What the tablet asks the service for never names the invitation, and the address bar has let it go."""
    context = tablet(browser)
    page = context.new_page()
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url + request.headers.get("referer", "")))
    address = place.invite("TAB-13")
    page.goto(address)
    page.wait_for_selector("#enrol:has-text('TAB-13')")
    token = address.partition("#")[2]
    assert len(token) > 40
    assert len(asked) > 2
    assert not any(token in each for each in (*asked, page.url))
    kept = page.evaluate("navigation.entries().map((entry) => entry.url)")
    assert kept
    assert not any(token in each for each in kept)
    page.go_back()
    assert token not in page.url
    context.close()


def test_no_script_reads_the_key_out(place: Place, browser: Browser) -> None:
    """What is kept signs, and cannot be taken out of the browser by any page of it."""
    context, page = enrolled(place, browser, "TAB-10")
    assert page.evaluate(_EXPORTED) == "InvalidAccessError"
    context.close()


def test_a_copy_of_the_cookie_is_no_tablet(place: Place, browser: Browser) -> None:
    """Another browser with the tablet's cookie finds no key, says so, and is not the tablet."""
    context, _ = enrolled(place, browser, "TAB-11")
    copy = tablet(browser)
    copy.add_cookies([each for each in context.cookies() if each["name"] == "strawline_key"])  # type: ignore[misc]
    page = copy.new_page()
    page.goto(f"{place.address}/sign-in")
    page.wait_for_selector("#unproved:has-text('but not its key')")
    assert page.locator("#enrolled").count() == 0
    copy.close()
    context.close()


def test_what_was_forgotten_is_proved_again(place: Place, browser: Browser) -> None:
    """When what was proved is gone, the page of names proves it again before anybody taps."""
    context, page = enrolled(place, browser, "TAB-12")
    context.clear_cookies(name="strawline_proof")
    page.goto(f"{place.address}/sign-in")
    page.wait_for_selector("#enrolled:has-text('TAB-12')")
    assert any(each["name"] == "strawline_proof" for each in context.cookies())
    context.close()


def test_what_is_sent_is_proved_and_sent_again(place: Place, browser: Browser) -> None:
    """Answered that the house does not know it, the tablet proves its key and sends the same once more."""
    context, page = enrolled(place, browser, "TAB-13")
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url.removeprefix(place.address)))
    page.route("**/api/deliveries", lambda route: route.fulfill(status=401), times=1)
    status = page.evaluate(_SENT, page.evaluate(_MODULE))
    assert (status, [each for each in asked if "/assets/" not in each]) == (
        422,
        ["/api/deliveries", "/device/number", "/device/proof", "/api/deliveries"],
    )
    context.close()


_MODULE = """
() => [...document.scripts].find((each) => each.src.endsWith("this_device.js")).src
  .replace("sign_in/this_device", "bench/device_key")
"""
_SENT = """
(module) => import(module).then((own) => own.fetchAsDevice("/api/deliveries", {
  method: "POST", headers: { "Content-Type": "application/json" }, body: "{}" })).then((answer) => answer.status)
"""
