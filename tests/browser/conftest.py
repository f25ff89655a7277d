"""One browser for all proofs of this room; one served shop for each module."""

from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest
from playwright.sync_api import Browser

from server.record.book_of_lines import Record
from tests.browser.chromium import chromium
from tests.browser.serving import free_port, served
from tests.pages.bench.bench_shop import open_shop


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
