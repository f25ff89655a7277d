"""The process is killed at any moment: nothing answered is lost, and nothing sent again is doubled."""

from collections.abc import Sequence

import pytest

from tests.faults.deaths import Death, die_in_syncs
from tests.faults.kills import Kills, kill_often
from tests.faults.long_runs import kills
from tests.faults.report import keep


def whole(found: Kills) -> bool:
    return (found.lost, found.doubled, found.odd) == (0, 0, 0)


def stored_unanswered(deaths: Sequence[Death]) -> bool:
    return any(each.unanswered_but_stored for each in deaths)


def doubled(deaths: Sequence[Death]) -> bool:
    return any(each.doubled for each in deaths)


def test_a_hundred_kills_lose_and_double_nothing():
    """Killed a hundred times, at work or while starting, each answered entry is there once, as it was answered."""
    found = kill_often(100)
    assert whole(found), found
    assert found.acknowledged > 300
    assert found.sent_again > 80


def test_killed_in_the_middle_of_a_sync():
    """Dead inside the call that keeps it, an entry may be stored without its answer; sent again it is there once."""
    found = die_in_syncs(3, seen=stored_unanswered)
    assert sum(each.lost + each.doubled + each.odd for each in found) == 0
    assert stored_unanswered(found)


def test_answered_before_it_is_kept_an_entry_is_lost():
    """Control: the same kills lose entries of a service that answers before it commits."""
    assert any(kill_often(10, "early", seed=seed).lost for seed in range(5))


def test_without_looking_at_the_entrys_id_it_is_doubled():
    """Control: the same deaths double entries of a service that does not look whether one was sent before."""
    assert doubled(die_in_syncs(2, "keyless", seen=doubled))


@pytest.mark.long
def test_a_thousand_kills_lose_and_double_nothing():
    """The same a thousand times, with what it found written into the measurements."""
    keep(kills())


@pytest.mark.long
def test_killed_in_the_middle_of_fifty_syncs():
    """The same fifty times."""
    found: list[Death] = die_in_syncs(50, seed=11)
    assert sum(each.lost + each.doubled + each.odd for each in found) == 0
