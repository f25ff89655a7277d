"""The record these proofs are made on, and a client that speaks to the application around it."""

import httpx
import pytest

from server.api.app import make_app
from server.record.book_of_lines import Record
from tests.api.asking import Asker
from tests.record.fixtures import empty_file, file, record

__all__ = ["asker", "empty_file", "file", "record"]


@pytest.fixture
def asker(record: Record) -> Asker:
    """Somebody who speaks HTTP to the application, in the same process."""
    return Asker(httpx.ASGITransport(make_app(record), raise_app_exceptions=False))
