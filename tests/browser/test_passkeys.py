"""Passkeys in a real browser with an authenticator of its own: made, used once, refused when told twice, taken away."""

from collections.abc import Iterator
from typing import Any, NamedTuple

import httpx
import pytest
from playwright.sync_api import Browser, CDPSession, Page

from tests.browser.chromium import tablet
from tests.browser.conftest import Shop
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import LEAD, PIN, WELDER

_AUTHENTICATOR = {
    "protocol": "ctap2", "transport": "internal", "hasResidentKey": True, "hasUserVerification": True,
    "isUserVerified": True, "automaticPresenceSimulation": True,
}  # fmt: skip


class Own(NamedTuple):
    """A browser with an authenticator, at the shop's address by name."""

    page: Page
    address: str
    told: CDPSession
    authenticator: str

    def verified(self, verified: bool) -> None:
        """Say whether the person passes the device's own check from now on."""
        told = {"authenticatorId": self.authenticator, "isUserVerified": verified}
        self.told.send("WebAuthn.setUserVerified", told)


@pytest.fixture
def own(browser: Browser, shop: Shop) -> Iterator[Own]:
    """A computer of one's own; browsers keep no passkey for a bare number, so it goes by a name."""
    context = tablet(browser)
    page = context.new_page()
    told = context.new_cdp_session(page)
    told.send("WebAuthn.enable")
    made: str = told.send("WebAuthn.addVirtualAuthenticator", {"options": _AUTHENTICATOR})["authenticatorId"]
    yield Own(page, shop.address.replace("127.0.0.1", "localhost"), told, made)
    context.close()


def sign_in(own: Own, person: str) -> None:
    own.page.goto(f"{own.address}/sign-in?onward=/own")
    own.page.check(f"input[value='{person}']", force=True)
    own.page.fill("#secret", PIN)
    own.page.click("button.main")
    own.page.wait_for_selector("h1:has-text('where you are signed in')")


def make_passkey(own: Own, pin: str = PIN) -> None:
    sign_in(own, LEAD)
    own.page.fill("#title", "the lead's computer")
    own.page.fill("#own", pin)
    own.page.click("#passkey-form button")


def hand_over(own: Own) -> None:
    own.page.click("text=Hand over")
    own.page.wait_for_selector("#passkey:visible")


def said(own: Own) -> str:
    return own.page.inner_text("#passkey-told")


def passkeys(shop: Shop) -> list[Any]:
    with shop.record.reads() as reads:
        return reads.passkeys(LEAD)


@pytest.fixture
def made(own: Own, shop: Shop) -> Own:
    """The lead with a passkey, signed in."""
    before = len(passkeys(shop))
    make_passkey(own)
    own.page.wait_for_selector("text=The passkey is kept")
    assert len(passkeys(shop)) == before + 1
    return own


def test_a_passkey_signs_in_without_a_name_or_a_secret(made: Own, shop: Shop) -> None:
    """Made on one's own page, it opens the lead's desk by itself; its use is noted and its making told."""
    hand_over(made)
    made.page.click("#passkey")
    made.page.wait_for_url(f"{made.address}/desk")
    assert passkeys(shop)[-1].used_ms is not None
    with shop.record.reads() as reads:
        told = list(reads.registers().door_changes.values())[-1]
    assert (told.act, told.by, told.words) == ("passkey added", LEAD, "the lead's computer")


def test_what_was_sent_once_opens_nothing_again(made: Own) -> None:
    """The same proof sent a second time, with or without a session, is refused: its challenge is used up."""
    hand_over(made)
    with made.page.expect_request("**/sign-in/passkey") as sent:
        made.page.click("#passkey")
    made.page.wait_for_url(f"{made.address}/desk")
    again = httpx.post(f"{made.address}/sign-in/passkey", json=sent.value.post_data_json)
    assert (again.status_code, "used already" in again.json()["detail"]) == (409, True)
    assert "set-cookie" not in again.headers


def test_a_device_that_did_not_check_its_person_proves_nothing(made: Own) -> None:
    """Where finger, face or the device's PIN failed, nobody is signed in."""
    made.verified(False)
    hand_over(made)
    made.page.click("#passkey")
    until(lambda: "Not signed in" in said(made))
    assert made.page.goto(f"{made.address}/api/bench/B1").status == 401  # type: ignore[union-attr]


def test_a_passkey_taken_away_opens_nothing(made: Own, shop: Shop) -> None:
    """Taken away on one's own page it is no longer known here, whatever the device still holds."""
    while passkeys(shop):
        made.page.goto(f"{made.address}/own")
        made.page.click("text=Take it away")
        made.page.wait_for_selector("text=is taken away")
    assert made.page.goto(f"{made.address}/own").ok  # type: ignore[union-attr]
    made.page.click("text=Hand over")
    made.page.wait_for_selector("h1:has-text('Who is working')")
    assert made.page.locator("#passkey").count() == 0


def test_without_the_own_pin_none_is_kept(own: Own, shop: Shop) -> None:
    """A session left open gets no passkey: whoever makes one proves themselves again."""
    before = len(passkeys(shop))
    make_passkey(own, "000001")
    until(lambda: "do not fit together" in said(own))
    assert len(passkeys(shop)) == before


def test_a_welder_is_offered_none(own: Own) -> None:
    """Passkeys are for lead and owner; a welder's page offers none, and the address refuses them."""
    sign_in(own, WELDER)
    assert own.page.locator("#passkey-form").count() == 0
    status = own.page.evaluate("fetch('/own/passkeys/ask', { method: 'POST' }).then((answer) => answer.status)")
    assert status == 403
