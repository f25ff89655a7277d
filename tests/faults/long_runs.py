"""The long runs: each fault as often as is asked, in batches until the time is over, beside its control."""

import time
from collections.abc import Callable, Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

from tests.faults.cuts import Cuts, Traced, cut_power, forget, traced_service
from tests.faults.deaths import die_in_syncs
from tests.faults.failing_syncs import AT_SYNC, fail_syncs
from tests.faults.kills import kill_often
from tests.faults.records import make_empty
from tests.faults.report import Row, none_of

_COMMAND = "python -m tests.faults.report"
FOR_EVER_MIN = 1e9


def batches(count: int, each: int, minutes: float) -> Iterator[tuple[int, int]]:
    """Give how many are done and how many are next, until there are enough or the time is over."""
    ends, done = time.monotonic() + 60 * minutes, 0
    while done < count and time.monotonic() < ends:
        now = min(each, count - done)
        yield done, now
        done += now


def power(count: int = 5000, minutes: float = FOR_EVER_MIN) -> Row:
    """Cut the power so often: every image holds every acknowledged entry."""
    opened = traces = 0
    with TemporaryDirectory() as name:
        empty = make_empty(Path(name) / "empty")
        for done, now in batches(count, 500, minutes):
            found = _cut(traced_service(empty, *(["short_log"] if traces % 2 else []), each=100), now, done)
            assert found == (now, 0, 0, 0, 0), found
            opened, traces = opened + now, traces + 1
        loose = _cut(traced_service(empty, "normal"), 100, 1)
    assert loose.losing
    return Row(
        "power cut",
        f"{none_of(opened, 'images that lost an acknowledged entry')}, of {traces} traces",
        f"`synchronous=NORMAL`: {loose.losing} of {loose.images} images lost some, at most {loose.most_lost}",
        f"{_COMMAND} power --count {count}",
    )


def _cut(traced: Traced, count: int, seed: int) -> Cuts:
    try:
        return cut_power(traced, count, seed)
    finally:
        forget(traced)


def syncs(count: int = 200, minutes: float = FOR_EVER_MIN) -> Row:
    """Let so many syncs fail, one to a service: each is told, taking stops, and nothing is lost."""
    failed = 0
    for done, now in batches(count, AT_SYNC // 2, minutes):
        found = fail_syncs(now, "moved_at_once", first=done)
        assert all(each.told and each.stopped for each in found), found
        assert sum(each.lost + each.odd for each in found) == 0, found
        failed += len(found)
    loose = fail_syncs(12, "automatic")
    quiet = [each for each in loose if not each.told]
    assert quiet
    return Row(
        "a sync fails",
        f"{none_of(failed, 'silent')}; each time taking stopped and nothing was lost",
        f"SQLite's automatic checkpoint: {len(quiet)} of {len(loose)} silent",
        f"{_COMMAND} syncs --count {count}",
    )


def kills(count: int = 1000, minutes: float = FOR_EVER_MIN) -> Row:
    """Kill a service so often: nothing answered is lost, nothing sent again is doubled."""
    killed = acknowledged = again = 0
    for done, now in batches(count, 50, minutes):
        found = kill_often(now, seed=done)
        assert (found.lost, found.doubled, found.odd) == (0, 0, 0), found
        killed, acknowledged, again = killed + now, acknowledged + found.acknowledged, again + found.sent_again
    early = kill_often(10, "early")
    keyless = die_in_syncs(3, "keyless", seen=lambda deaths: any(each.doubled for each in deaths))
    doubled = sum(each.doubled for each in keyless)
    assert early.lost
    assert doubled
    control = f"answered before the commit: {early.lost} lost in 10 kills"
    return Row(
        "SIGKILL",
        f"{none_of(killed, 'kills that lost or doubled one')}; {acknowledged:,} acknowledged, {again:,} sent again",
        f"{control}; no look at the id: {doubled} doubled in {len(keyless)}",
        f"{_COMMAND} kills --count {count}",
    )


def contract(count: int = 1000, minutes: float = FOR_EVER_MIN) -> Row:
    """Draw so many requests to each address for programs, or as many as the time allows, fifty more at a time."""
    from tests.api.drawn import asked_shop, planted_failure_is_found, try_each

    drawn = addresses = 0
    with asked_shop() as asked:
        for done, now in batches(count, 50, minutes):
            addresses = try_each(*asked, now, seed=done)
            drawn += now
    assert planted_failure_is_found()
    return Row(
        "drawn requests",
        f"0 failures and 0 undocumented answers, {drawn:,} drawn for each of {addresses} addresses",
        "a planted failure is found",
        f"{_COMMAND} contract --count {count}",
    )


RUNS: dict[str, tuple[Callable[[int, float], Row], int]] = {
    "power": (power, 5000),
    "syncs": (syncs, 200),
    "kills": (kills, 1000),
    "contract": (contract, 1000),
}
"""Each long run by its name, with how often it is asked in full."""
