"""How long the morning list takes with thousands of open findings in a record of many entries.

python -m tests.benchmarks.desk_speed 1000000 2000
"""

import json
import sqlite3
import sys
from contextlib import closing
from pathlib import Path
from tempfile import TemporaryDirectory
from time import process_time
from typing import Any, NamedTuple

from server.pages.desk.page import MOST_ROWS, DeskPage
from server.pages.frame.rendering import written
from server.pages.frame.shop_sign import ShopSign
from server.pages.frame.visitor import Visitor
from server.record.book_of_lines import Record
from server.work.morning_list import morning_list
from tests.record.fixtures import url_of
from tests.story.log import Tablet
from tests.work.small_shop import a_pass, open_shop, send

_LEAD = Visitor("LEA", "Lead", "quality lead", ("quality lead",))
_QUESTIONS = ("purge-o2", "travel", "mean-current", "volts", "inside-colour", "fit-up-gap", "heat-input", "interpass")
_AT_ONCE = 20_000


class DeskSpeed(NamedTuple):
    """Entries and findings in the record, the processor time of asking and of writing the page [s], and its rows."""

    entries: int
    findings: int
    asking_s: float
    page_s: float

    @property
    def seconds(self) -> float:
        """Both together [s]."""
        return self.asking_s + self.page_s


def record_of_many(folder: Path, entries: int, findings: int) -> Path:
    """Write a record with so many entries of other frames and so many open findings, row by row as they are kept."""
    with closing(open_shop(folder)) as record:
        send(record, a_pass(Tablet("SLATE"), "1:00", oxygen="300"))
    file = folder / "record.sqlite3"
    with closing(sqlite3.connect(file)) as told, told:
        told.execute("PRAGMA synchronous = OFF")
        _more_entries(told, entries)
        _more_findings(told, findings)
    return file


def desk_speed(file: Path, rounds: int = 3) -> DeskSpeed:
    """Ask and write the morning list of a record; the least of the rounds, the registers being known by then."""
    with closing(Record.open(url_of(file))) as record:
        timed = [_once(record) for _ in range(rounds + 1)][1:]
        with record.reads() as reads:
            entries, found = reads.last_position(), len(reads.findings())
    return DeskSpeed(entries, found, min(asking for asking, _ in timed), min(page for _, page in timed))


def _once(record: Record) -> tuple[float, float]:
    began = process_time()
    with record.reads() as reads:
        found = morning_list(reads, MOST_ROWS)
    asked = process_time()
    written("desk/desk.html", DeskPage(found, ""), _LEAD, ShopSign(record), "/desk")
    return asked - began, process_time() - asked


def _more_entries(told: sqlite3.Connection, count: int) -> None:
    """Copies of one pass under other ids and on other frames; nobody checks this record's chains."""
    row = _row(told, "SELECT * FROM line WHERE entry_kind = 'pass' LIMIT 1")
    last = told.execute("SELECT max(position) FROM line").fetchone()[0]
    for start in range(0, count, _AT_ONCE):
        numbers = range(start + 1, min(start + _AT_ONCE, count) + 1)
        _insert(told, "line", [
            row | {"position": last + each, "id": f"many:{each}", "seq": each, "frame": f"M-{each // 500}",
                   "delivery": f"many-{each}"}
            for each in numbers
        ])  # fmt: skip


def _more_findings(told: sqlite3.Connection, count: int) -> None:
    row = _row(told, "SELECT * FROM finding WHERE question = 'purge-o2' AND gone = 0 LIMIT 1")
    last = told.execute("SELECT max(number) FROM finding").fetchone()[0]
    rows = []
    for each in range(1, count + 1):
        question, frame = _QUESTIONS[each % len(_QUESTIONS)], f"M-{each // 40}"
        subject = f"{frame}/J{each % 40}#1"
        verdict = json.loads(row["verdict"])
        verdict[0], verdict[1], verdict[-1] = question, subject, [f"many:{each}"]
        rows.append(row | {"number": last + each, "key": f"{subject}|{question}", "frame": frame, "about": subject,
                           "question": question, "verdict": json.dumps(verdict)})  # fmt: skip
    _insert(told, "finding", rows)


def _row(told: sqlite3.Connection, asked: str) -> dict[str, Any]:
    found = told.execute(asked)
    return dict(zip([each[0] for each in found.description], found.fetchone(), strict=True))


def _insert(told: sqlite3.Connection, table: str, rows: list[dict[str, Any]]) -> None:
    names = list(rows[0])
    marks = ", ".join("?" * len(names))
    told.executemany(
        f"INSERT INTO {table} ({', '.join(names)}) VALUES ({marks})", [[row[name] for name in names] for row in rows]
    )


def main(asked: list[str]) -> None:
    """Make a record of the size asked for and tell how long its morning list took."""
    entries, findings = map(int, asked or ("100000", "2000"))
    with TemporaryDirectory() as folder:
        found = desk_speed(record_of_many(Path(folder), entries, findings))
    asking, page = (1000 * each for each in (found.asking_s, found.page_s))
    print(f"{found.entries:,} entries, {found.findings:,} findings: asked in {asking:.0f} ms, written in {page:.0f} ms")


if __name__ == "__main__":
    main(sys.argv[1:])
