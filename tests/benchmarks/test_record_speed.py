"""Taking, reading and judging stay within a small multiple of bare SQLite and bare parsing."""

from tests.benchmarks.record_speed import measured

BARE = "bare SQLite, one row to a commit"
PARSING = "bare parsing of one entry"
MOST = {
    "taken, one to a request, all waiting": (8, BARE),
    "taken, one to a request, one after the other": (12, BARE),
    "read back, one scan of all": (4, PARSING),
    "ten verdicts of one subject kept": (15, PARSING),
    "rechecked": (30, PARSING),
}


def beyond(runs: list[dict[str, float]]) -> dict[str, float]:
    """Give the works that took more than so many floors, by the least of each in all runs."""
    micros = {name: min(each[name] for each in runs) for name in runs[0]}
    times = {name: micros[name] / micros[floor] for name, (_, floor) in MOST.items()}
    return {name: found for name, found in times.items() if found >= MOST[name][0]}


def test_the_record_costs_little_more_than_what_it_stands_on():
    """Group commit keeps near one bare commit an entry, a scan near bare parsing, and so do verdicts and a recheck."""
    # A disk hesitates and a processor is taken now and then, so runs go on; the work itself is in all of them.
    runs = [measured(1500)]
    while beyond(runs) and len(runs) < 12:
        runs.append(measured(1500))
    assert beyond(runs) == {}
