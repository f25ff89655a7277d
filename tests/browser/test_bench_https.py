"""The bench over the shop's own certificate: the service worker takes hold, and the app opens without the network."""

import base64
import hashlib
import importlib
from collections.abc import Iterator
from pathlib import Path

import pytest
from cryptography import x509
from cryptography.hazmat.primitives.serialization import Encoding, PublicFormat
from playwright.sync_api import Browser, Error

from tests.browser.chromium import FLAGS, sign_in, tablet
from tests.browser.hand import Hand
from tests.browser.serving import free_port, served
from tests.browser.waiting import until
from tests.pages.bench.bench_shop import PIN, WELDER, open_shop

_SOON_MS = 120_000


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A shop's folder for which `strawline certificate` made a certificate."""
    made = tmp_path_factory.mktemp("https")
    command = importlib.import_module("server.commands.certificate")
    assert command.run(["--data", str(made), "--name", "weldlog.local", "--address", "127.0.0.1"]) == 0
    return made


@pytest.fixture(scope="module")
def address(folder: Path) -> Iterator[str]:
    """The shop served by HTTPS; asked from its own machine, where everybody signs in by PIN."""
    record = open_shop(folder)
    try:
        with served(record, folder, free_port(), certificate=folder / "certificate" / "server.pem") as found:
            yield found
    finally:
        record.close()


def fingerprint(folder: Path) -> str:
    """The certificate's key as Chromium is told to believe it: no other key is."""
    made = x509.load_pem_x509_certificate((folder / "certificate" / "server.pem").read_bytes())
    key = made.public_key().public_bytes(Encoding.DER, PublicFormat.SubjectPublicKeyInfo)
    return base64.b64encode(hashlib.sha256(key).digest()).decode()


def another(browser: Browser, *believed: str) -> Browser:
    """A browser of its own."""
    return browser.browser_type.launch(executable_path="/usr/bin/chromium", args=[*FLAGS, *believed])


def test_the_bench_opens_offline_over_the_shops_certificate(browser: Browser, folder: Path, address: str) -> None:
    """Signed in over HTTPS, cut off, reloaded: the page stands; an entry is kept and arrives later."""
    trusting = another(browser, f"--ignore-certificate-errors-spki-list={fingerprint(folder)}")
    context = tablet(trusting)
    page = context.new_page()
    sign_in(page, address, WELDER, PIN, "TAB-TLS")
    assert page.evaluate("isSecureContext")
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    until(lambda: page.evaluate("navigator.serviceWorker.controller !== null && strawlineBench.sheet !== null"))
    context.set_offline(True)
    page.reload()
    page.wait_for_selector(".frame-screen h1")
    hand = Hand(page)
    hand.tap("more-all", "joint-J03")
    hand.key_in("0.2")
    hand.log()
    page.wait_for_selector("[data-key=state]:has-text('On this tablet: 3')")
    context.set_offline(False)
    page.evaluate("strawlineBench.send()")
    page.wait_for_selector("[data-key=state]:has-text('All in the record')", timeout=_SOON_MS)
    trusting.close()


def test_a_tablet_that_does_not_know_the_authority_is_not_let_in(browser: Browser, address: str) -> None:
    """Control: without the shop's authority the browser refuses the address."""
    wary = another(browser)
    page = wary.new_page()
    with pytest.raises(Error, match="ERR_CERT_AUTHORITY_INVALID"):
        page.goto(f"{address}/bench")
    wary.close()
