"""The disk is full, in four ways: nothing is answered as kept that is not, reading goes on, and taking does after."""

from collections.abc import Callable

import pytest

from tests.faults.full_disks import (
    Full,
    file_finds_no_room,
    nobody_is_told,
    pages_run_out,
    process_is_limited,
    writes_find_no_room,
)


@pytest.mark.parametrize("way", [pages_run_out, process_is_limited, writes_find_no_room])
def test_a_full_disk_answers_507_and_recovers_by_itself(way: Callable[[], Full]):
    """Entries are refused with 507 and what to do, everything else answers, and with room the next one is taken."""
    found = way()
    assert found.status == 507
    assert "nothing was taken" in found.detail
    assert not found.ready_meanwhile
    assert found.readable_meanwhile
    assert found.refused_with_room == 0
    assert found.acknowledged > 5
    assert (found.lost, found.odd) == (0, 0)


def test_where_nobody_is_told_entries_are_lost():
    """Control: a service that swallows the error answers 200 for what the disk has not kept."""
    found = nobody_is_told()
    assert (found.refused, found.acknowledged) == (0, 110)
    assert found.lost > 10


def test_a_log_that_cannot_be_moved_is_moved_later():
    """While only the file finds no room, entries are taken into the log beside it; with room the log is emptied."""
    found = file_finds_no_room()
    assert found.no_room >= 1
    assert found.refused == 0
    assert found.moved_bytes > 450_000
    assert (found.lost, found.odd) == (0, 0)
