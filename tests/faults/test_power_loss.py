"""The power is cut at any moment: what the disk had not been asked to keep may be gone, and nothing answered is."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.faults.cuts import Traced, cut_power, forget, traced_service
from tests.faults.long_runs import power
from tests.faults.report import keep
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


def test_the_logs_name_is_kept_by_the_records_own_sync_of_the_folder(traced: Traced):
    """As if SQLite had not synced the folder when it made its log: nothing is lost, since the record did so itself."""
    assert cut_power(without_syncs_of_folder(traced, 0, 1), 60) == (60, 0, 0, 0, 0)


def test_without_any_sync_of_the_folder_everything_may_be_lost(traced: Traced):
    """Control: had nobody synced the folder, the log's name and with it acknowledged entries may be gone."""
    assert cut_power(without_syncs_of_folder(traced, 0, None), 60).losing > 10


def without_syncs_of_folder(traced: Traced, first: int, end: int | None) -> Traced:
    """Leave out some syncs of the folder, as if they had failed."""
    syncs = [at for at, event in enumerate(traced.happened) if event == Synced(str(traced.before))]
    assert len(syncs) >= 2
    left_out = set(syncs[first:end])
    return traced._replace(happened=[event for at, event in enumerate(traced.happened) if at not in left_out])


@pytest.mark.long
def test_nothing_acknowledged_is_lost_in_five_thousand_cuts():
    """The same in 5,000 images over ten traces, with what it found written into the measurements."""
    keep(power())
