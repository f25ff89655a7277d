"""How fast the record takes, reads, judges and rechecks, beside bare SQLite and bare parsing in the same run."""

import sqlite3
import sys
from collections.abc import Callable, Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from tempfile import TemporaryDirectory
from time import perf_counter

from server.facts.judged import Severity, Verdict, Word
from server.facts.log import LOG_ENTRY
from server.record.book_of_lines import Record
from server.record.judged import Judged
from server.record.keeping_judged import keep_judged
from server.record.record_check import check_record
from server.work.sent_delivery import SentDelivery
from server.work.take_deliveries import take_deliveries
from tests.record.fixtures import append, url_of
from tests.record.sample_lines import DEVICE, RECEIVED, entry_bytes

_WITHIN = tuple(
    Verdict(f"question {number}", "", Word.WITHIN, Severity.NOTE, "as planned", value=0.4, unit="kJ/mm", high=0.5)
    for number in range(10)
)


def seconds(work: Callable[[], object]) -> float:
    """Give how long something took [s]."""
    began = perf_counter()
    work()
    return perf_counter() - began


def bare_commits(folder: Path, bodies: list[bytes], at_once: int) -> float:
    """Insert the bytes by plain sqlite3 with the same durability, so many rows to a commit: the floor [s]."""
    with closing(sqlite3.connect(folder / f"bare{at_once}.sqlite3", isolation_level=None)) as connection:
        for pragma in ("journal_mode=WAL", "synchronous=FULL", "wal_autocheckpoint=0"):
            connection.execute(f"PRAGMA {pragma}")
        connection.execute("CREATE TABLE line (position INTEGER PRIMARY KEY, id TEXT UNIQUE, body BLOB)")

        def work() -> None:
            for first in range(0, len(bodies), at_once):
                connection.execute("BEGIN IMMEDIATE")
                for number, body in enumerate(bodies[first : first + at_once], first):
                    connection.execute("INSERT INTO line VALUES (?, ?, ?)", (number, str(number), body))
                connection.execute("COMMIT")

        return seconds(work)


@contextmanager
def opened() -> Iterator[tuple[Record, Path]]:
    """An empty record in a folder of its own."""
    with TemporaryDirectory() as name:
        record = Record.open(url_of(Path(name) / "record.sqlite3"))
        yield record, Path(name)
        record.close()


def sendings(count: int) -> list[SentDelivery]:
    """Ordinary entries, each sent once."""
    return [SentDelivery(f"D{n}", DEVICE, RECEIVED - 200, RECEIVED, entry_bytes(n)) for n in range(count)]


def taken(record: Record, several: list[SentDelivery], at_once: int) -> None:
    """Take them, so many to a request, all requests waiting together."""
    waiting = [take_deliveries(record, several[first : first + at_once]) for first in range(0, len(several), at_once)]
    for each in waiting:
        each.result()


def one_by_one(record: Record, several: list[SentDelivery]) -> None:
    """Take them one to a request, each sent when the one before was answered."""
    for each in several:
        take_deliveries(record, [each]).result()


def measured(count: int) -> dict[str, float]:
    """Give each work's time for one entry or one row [µs]."""
    several = sendings(count)
    bodies = [each.body for each in several]
    few = several[: count // 10]
    found = {}
    with opened() as (record, folder):
        found["bare SQLite, one row to a commit"] = bare_commits(folder, bodies[: len(few)], 1) / len(few)
        found["bare SQLite, 64 rows to a commit"] = bare_commits(folder, bodies, 64) / count
        one_by_one(record, several[:1])
        found["taken, one to a request, one after the other"] = seconds(lambda: one_by_one(record, few)) / len(few)
        rest = several[len(few) :]
        found["taken, one to a request, all waiting"] = seconds(lambda: taken(record, rest, 1)) / len(rest)
    with opened() as (record, folder):
        found["taken, 50 to a request"] = seconds(lambda: taken(record, several, 50)) / count
        found["bare parsing of one entry"] = seconds(lambda: [LOG_ENTRY.validate_json(body) for body in bodies]) / count
        with record.reads() as reads:
            found["read back, one scan of all"] = seconds(lambda: list(reads.every_entry())) / count
            found["clock pairs, read the first time"] = seconds(reads.clock_pairs) / count
        judged = [Judged(f"F-1/J{n}#1", "joint", "F-1", _WITHIN) for n in range(count)]
        kept = seconds(lambda: append(record, changes=(keep_judged(judged, 1, "then"),)))
        found["ten verdicts of one subject kept"] = kept / count
        again = seconds(lambda: append(record, changes=(keep_judged(judged, 1, "then"),)))
        found["the same judged again, nothing written"] = again / count
        record.close()
        found["rechecked"] = seconds(lambda: check_record(url_of(folder / "record.sqlite3"), folder)) / count
    return {name: 1e6 * each for name, each in found.items()}


def main(count: int) -> None:
    """Print a table for the measurements page, the best of three runs."""
    print(f"| work, {count} entries | µs for one | in a second |\n|---|---:|---:|")
    runs = [measured(count) for _ in range(3)]
    for name in runs[0]:
        micros = min(run[name] for run in runs)
        print(f"| {name} | {micros:.0f} | {1e6 / micros:,.0f} |")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
