"""One browser for all proofs of this room; one served shop for each module."""

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple
from zlib import crc32

import pytest
from playwright.sync_api import Browser

from server.record.book_of_lines import Record
from tests.browser.chromium import chromium, sign_in, tablet
from tests.browser.hand import Hand
from tests.browser.serving import free_port, served
from tests.pages.bench.bench_shop import PIN, WELDER, open_shop


class Shop(NamedTuple):
    """A served shop: its record, its folder, where it is found."""

    record: Record
    folder: Path
    address: str


# Not for the whole session: while the driver lives, nothing else in this process may run a loop of its own.
@pytest.fixture(scope="package")
def browser() -> Iterator[Browser]:
    """Debian's Chromium."""
    with chromium() as found:
        yield found


@pytest.fixture(scope="module")
def shop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Shop]:
    """The application with two frames in work, served until the module's proofs are over."""
    folder = tmp_path_factory.mktemp("shop")
    record = open_shop(folder)
    try:
        with served(record, folder, free_port()) as address:
            yield Shop(record, folder, address)
    finally:
        record.close()


@pytest.fixture
def hand(browser: Browser, shop: Shop, request: pytest.FixtureRequest) -> Iterator[Hand]:
    """A welder signed in at the first bench, on a tablet of its own for each proof."""
    context = tablet(browser)
    page = context.new_page()
    sign_in(page, shop.address, WELDER, PIN, f"TAB-{crc32(request.node.name.encode()) % 10**6}")
    yield Hand(page)
    context.close()
