"""A disk that fails to keep something is never passed over in silence: somebody is told, and taking stops."""

from collections.abc import Sequence

import pytest

from tests.faults.failing_syncs import OURS, SQLITES, Failure, fail_sync_of_folder, fail_syncs, of_both_files
from tests.faults.long_runs import syncs
from tests.faults.report import keep


def silent(failures: Sequence[Failure]) -> list[Failure]:
    return [each for each in failures if not each.told]


def test_no_failed_sync_is_silent():
    """In twelve services or more one sync failed, of log and of file: each said so, took no more, and lost nothing."""
    failures = fail_syncs(12, "moved_at_once", seen=of_both_files)
    assert silent(failures) == []
    assert all(each.stopped for each in failures)
    assert sum(each.lost + each.odd for each in failures) == 0
    assert of_both_files(failures)


def test_the_folder_is_synced_by_the_record_itself():
    """When the sync of the folder fails at the start, the record says so and takes nothing."""
    assert fail_sync_of_folder(OURS) == (True, 503)


def test_sqlites_own_sync_of_the_folder_is_silent():
    """Control: SQLite syncs the folder when it makes its log, tells nobody when that fails, and nothing rests on it."""
    assert fail_sync_of_folder(SQLITES) == (False, 200)


def test_sqlites_own_moving_of_the_log_is_silent():
    """Control: where SQLite moves its log by itself, some of the same failures reach nobody, and taking goes on."""
    quiet = silent(fail_syncs(6, "automatic", seen=lambda failures: bool(silent(failures))))
    assert quiet
    assert not any(each.stopped for each in quiet)


@pytest.mark.long
def test_none_of_two_hundred_is_silent():
    """The same in 200 services, with what it found written into the measurements."""
    keep(syncs())
