"""The records that the verbs are proved on."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from server.record.book_of_lines import Record
from tests.record.fixtures import either, empty_file, file, postgres, record, url
from tests.story.log import Tablet
from tests.work.small_shop import open_shop, send, weld_it_all

__all__ = ["either", "empty_file", "file", "postgres", "record", "url"]


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Record]:
    """The small shop with every seam of its one frame welded."""
    made = open_shop(tmp_path)
    send(made, *weld_it_all(Tablet("SLATE")))
    yield made
    made.close()
