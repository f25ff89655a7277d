"""Taking, reading and judging stay within a small multiple of bare SQLite and bare parsing."""

from tests.benchmarks.record_speed import measured


def test_the_record_costs_little_more_than_what_it_stands_on():
    """Group commit keeps near one bare commit an entry, a scan near bare parsing, and so do verdicts and a recheck."""
    # A disk hesitates now and then; the least of three runs is what each kind of work takes.
    runs = [measured(1500) for _ in range(3)]
    micros = {name: min(each[name] for each in runs) for name in runs[0]}
    one_commit, parsing = micros["bare SQLite, one row to a commit"], micros["bare parsing of one entry"]
    assert micros["taken, one to a request, all waiting"] < 8 * one_commit
    assert micros["taken, one to a request, one after the other"] < 12 * one_commit
    assert micros["read back, one scan of all"] < 4 * parsing
    assert micros["ten verdicts of one subject kept"] < 15 * parsing
    assert micros["rechecked"] < 30 * parsing
