"""Looking whether what was judged is as it was kept holds no more in memory for a longer record."""

import sqlite3
import tracemalloc
from contextlib import closing
from pathlib import Path

from server.record.book_of_lines import Record
from server.record.engines import make_engines
from server.record.judged import digest_of_kept
from server.record.odd_judged import odd_judged
from tests.record.fixtures import url_of


def most_held(folder: Path, verdicts: int) -> int:
    """How much the look held at most [bytes], over so many subjects of which all is well."""
    folder.mkdir()
    file = folder / "record.sqlite3"
    Record.open(url_of(file)).close()
    rows = [(number, f"MT-{number}/J1#1", "[]", digest_of_kept("", "[]", {})) for number in range(1, verdicts + 1)]
    with closing(sqlite3.connect(file)) as told, told:
        columns = "(number, subject, level, known_at, book, packed, digest)"
        told.executemany(f"INSERT INTO verdict {columns} VALUES (?, ?, 'frame', 1, 'then', ?, ?)", rows)
    with make_engines(url_of(file)).reading.connect() as connection:
        list(odd_judged(connection))
        tracemalloc.start()
        assert list(odd_judged(connection)) == []
        most = tracemalloc.get_traced_memory()[1]
        tracemalloc.stop()
    return most


def test_it_does_not_grow_with_what_was_judged(tmp_path: Path):
    """Ten times as many subjects are gone through in the same memory, give or take a quarter."""
    assert most_held(tmp_path / "long", 4000) < 1.25 * most_held(tmp_path / "short", 400)
