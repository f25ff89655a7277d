"""How fast a whole shop is loaded and judged, beside bare parsing and bare inserting of the same lines."""

import json
import os
import resource
import sqlite3
import sys
from collections.abc import Callable
from contextlib import closing
from multiprocessing import get_context
from pathlib import Path
from tempfile import TemporaryDirectory
from time import monotonic, process_time
from typing import NamedTuple

from tests.benchmarks.memory_watch import MemoryWatch

_AT_ONCE = 400


class ShopSpeed(NamedTuple):
    """What a shop holds, the processor time each work on all of it took [s], and the memory of loading and judging."""

    entries: int
    passes: int
    bare_parsing_s: float
    bare_inserting_s: float
    guarded_inserting_s: float
    loading_s: float
    bare_reading_s: float
    judging_s: float
    loading_by_the_clock_s: float
    judging_by_the_clock_s: float
    most_mb: float


def processor_s(work: Callable[[], object]) -> float:
    """Give how long a work kept a processor, on all threads and in processes it started and ended [s]."""
    began = _spent_s()
    work()
    return _spent_s() - began


def _spent_s() -> float:
    ended = resource.getrusage(resource.RUSAGE_CHILDREN)
    return process_time() + ended.ru_utime + ended.ru_stime


def both_s(work: Callable[[], object]) -> tuple[float, float]:
    """Give how long a work kept a processor, and how long it took by the clock on the wall [s]."""
    began = monotonic()
    return processor_s(work), monotonic() - began


def make(folder: Path, which: str) -> Path:
    """Write the invented shop's folder."""
    from demo_data.generator.cards import shown_cards
    from demo_data.generator.folder import write_shop

    write_shop(folder / "shop", which, cards=shown_cards)
    return folder / "shop"


def speed_of(
    shop: Path, folder: Path, rounds: int = 1, longer: int = 1, enough: Callable[[ShopSpeed], bool] = lambda _: True
) -> ShopSpeed:
    """Load a shop folder into a fresh record and judge it whole from its file, opened anew; the least of the rounds.

    Rounds go on, up to so many times as many, as long as it is not enough: another program lengthens a round at most.
    """
    done: list[ShopSpeed] = []
    least: ShopSpeed | None = None
    while least is None or len(done) < rounds or (not enough(least) and len(done) < longer * rounds):
        done.append(_once(shop, folder / str(len(done))))
        least = ShopSpeed(*map(min, zip(*done, strict=True)))
    return least


def _once(shop: Path, folder: Path) -> ShopSpeed:
    # Not on top: the processes that read and judge beside import this file first, where a command is a light one.
    from server.facts.log import LOG_ENTRY
    from tests.benchmarks.whole_shop import judge, load

    folder.mkdir()
    file, bodies = folder / "record.sqlite3", list[bytes]()
    # The floors come after, so that what they hold is not counted with what is measured.
    with MemoryWatch() as watch:
        loading, loading_clock = both_s(lambda: load(file, shop))
        judging, judging_clock = both_s(lambda: judge(file))
    parsing = processor_s(lambda: bodies.extend(_parsed(shop / "deliveries.jsonl")))
    inserting = processor_s(lambda: _insert(folder / "bare.sqlite3", bodies))
    guarded = processor_s(lambda: _insert_guarded(folder / "guarded.sqlite3", file))
    # The floor is short, so that one run of it says little.
    reading = min(processor_s(lambda: [LOG_ENTRY.validate_json(body) for body in _bodies(file)]) for _ in range(5))
    with closing(sqlite3.connect(file)) as kept:
        counted = "SELECT count(*) FILTER (WHERE kind = 'entry'), count(*) FILTER (WHERE entry_kind = 'pass') FROM line"
        entries, passes = kept.execute(counted).fetchone()
    floors = (parsing, inserting, guarded)
    clocks = (loading_clock, judging_clock)
    return ShopSpeed(entries, passes, *floors, loading, reading, judging, *clocks, watch.most_mb)


def _parsed(deliveries: Path) -> list[bytes]:
    bodies = []
    with deliveries.open(encoding="utf-8") as lines:
        for line in lines:
            body = json.loads(line)["line"]
            json.loads(body)
            bodies.append(body.encode())
    return bodies


def _insert(file: Path, bodies: list[bytes]) -> None:
    with closing(_bare(file)) as bare:
        bare.execute("CREATE TABLE line (position INTEGER PRIMARY KEY, body BLOB)")
        _put(bare, "line (body)", [(each,) for each in bodies])


def _insert_guarded(file: Path, record: Path) -> None:
    """Put the record's own rows, row by row, into tables with its own indexes and guards."""
    with closing(_bare(file)) as bare, closing(sqlite3.connect(record)) as source:
        made = "SELECT sql FROM sqlite_master WHERE tbl_name IN ('line', 'subject_link') AND sql IS NOT NULL"
        for (statement,) in source.execute(f"{made} ORDER BY type = 'trigger', type = 'index'"):
            bare.execute(statement)
        for table in ("line", "subject_link"):
            _put(bare, table, source.execute(f"SELECT * FROM {table}").fetchall())


def _bare(file: Path) -> sqlite3.Connection:
    bare = sqlite3.connect(file, isolation_level=None)
    for pragma in ("journal_mode=WAL", "synchronous=FULL", "wal_autocheckpoint=0"):
        bare.execute(f"PRAGMA {pragma}")
    return bare


def _put(bare: sqlite3.Connection, into: str, rows: list[tuple[object, ...]]) -> None:
    marks = ", ".join("?" * len(rows[0]))
    for first in range(0, len(rows), _AT_ONCE):
        bare.execute("BEGIN IMMEDIATE")
        bare.executemany(f"INSERT INTO {into} VALUES ({marks})", rows[first : first + _AT_ONCE])
        bare.execute("COMMIT")


def _bodies(file: Path) -> list[bytes]:
    with closing(sqlite3.connect(file)) as bare:
        return [body for (body,) in bare.execute("SELECT body FROM line WHERE kind = 'entry' AND state = 'taken'")]


def main(which: str) -> None:
    """Print a table for the measurements page."""
    with TemporaryDirectory() as name:
        # What writing the shop takes would stay with this process.
        writing = get_context("spawn").Process(target=make, args=(Path(name), which))
        writing.start()
        writing.join()
        speed = speed_of(Path(name) / "shop", Path(name))
    together_s = speed.loading_s + speed.judging_s
    clock_s = speed.loading_by_the_clock_s + speed.judging_by_the_clock_s
    guarded = "bare SQLite, the record's own rows, indexes and guards, row by row"
    rows = (
        ("bare parsing of what was sent", speed.entries, "entries", speed.bare_parsing_s),
        ("bare SQLite, the same bytes, 400 to a commit", speed.entries, "entries", speed.bare_inserting_s),
        (guarded, speed.entries, "entries", speed.guarded_inserting_s),
        ("loaded, from the folder on", speed.entries, "entries", speed.loading_s),
        ("bare reading of every entry as its noun", speed.entries, "entries", speed.bare_reading_s),
        ("judged whole from the closed file, written back", speed.passes, "pass occasions", speed.judging_s),
        ("loaded and judged", speed.entries, "entries", together_s),
    )
    print(f"| {which} shop: {speed.entries:,} entries, {speed.passes:,} passes | processor time | in a second |")
    print("|---|---:|---:|")
    for words, count, what, took_s in rows:
        print(f"| {words} | {took_s:.2f} s | {count / took_s:,.0f} {what} |")
    print(f"\nBy the clock: loaded {speed.loading_by_the_clock_s:.2f} s, judged {speed.judging_by_the_clock_s:.2f} s;")
    print(f"together {speed.entries / clock_s:,.0f} entries a second; load average {os.getloadavg()[0]:.1f}")
    print(f"Most memory held by all processes at once, what they share counted once: {speed.most_mb:,.0f} MB")


if __name__ == "__main__":
    main(sys.argv[1] if len(sys.argv) > 1 else "small")
