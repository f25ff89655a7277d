"""The power is cut at any moment: what the disk had not been asked to keep may be gone, and nothing answered is."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.faults.cuts import Traced, cut_power, forget, traced_service
from tests.faults.syscalls import Acknowledged, Synced


@pytest.fixture(scope="module")
def traced(empty: Path) -> Iterator[Traced]:
    """A real service that took entries from four tablets, moved its log many times, and ended in order."""
    found = traced_service(empty, "short_log")
    yield found
    forget(found)


def test_the_trace_shows_what_it_should(traced: Traced):
    """Every entry answered for is in the trace, commits were synced, and the log was moved into the file many times."""
    receipts = [each for event in traced.happened if isinstance(event, Acknowledged) for each in event.receipts]
    synced = [Path(event.path).name for event in traced.happened if isinstance(event, Synced)]
    assert len({receipt["entry"] for receipt in receipts}) == traced.acknowledged == 240
    assert synced.count("record.sqlite3-wal") > 40
    assert synced.count("record.sqlite3") > 5


def test_nothing_acknowledged_is_lost(traced: Traced):
    """In 500 images of the disk after a cut every acknowledged entry is there as answered, and all of it holds."""
    found = cut_power(traced, 500)
    assert found == (500, 0, 0, 0, 0)


def test_without_waiting_for_the_disk_entries_are_lost(empty: Path):
    """Control: the same service with synchronous=NORMAL loses acknowledged entries in many of 100 images."""
    loose = traced_service(empty, "normal")
    found = cut_power(loose, 100)
    forget(loose)
    assert found.losing > 20
    assert found.most_lost > 1


@pytest.mark.long
def test_nothing_acknowledged_is_lost_in_five_thousand_cuts(empty: Path):
    """The same in 5,000 images, over five traces."""
    for seed in range(5):
        traced = traced_service(empty, *(["short_log"] if seed % 2 else []), each=100)
        assert cut_power(traced, 1000, seed) == (1000, 0, 0, 0, 0)
        forget(traced)
