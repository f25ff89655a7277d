"""What a record's file holds after a fault, read past the program with SQLite alone."""

import sqlite3
from contextlib import closing
from pathlib import Path
from typing import Any, NamedTuple


class Stored(NamedTuple):
    """The lines in the file by entry id, those that stand more than once, and whether SQLite finds the file sound."""

    lines: dict[str, tuple[int, str, bytes]]
    doubled: list[str]
    sound: bool


class Lost(NamedTuple):
    """Entries that were acknowledged and are not there, or not as they were."""

    missing: list[str]
    other: list[str]


def read_stored(file: Path) -> Stored:
    """Open the file as any program would after a fault, and read the entries that were taken."""
    with closing(sqlite3.connect(file)) as connection:
        try:
            sound = connection.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
            asked = "SELECT id, position, hex(leaf), body FROM line WHERE kind = 'entry' AND state = 'taken'"
            rows = connection.execute(f"{asked} ORDER BY position").fetchall()
        except sqlite3.DatabaseError:
            return Stored({}, [], False)
    lines = {name: (position, leaf.lower(), body) for name, position, leaf, body in rows}
    return Stored(lines, sorted({row[0] for row in rows if lines[row[0]][0] != row[1]}), sound)


def lost_of(receipts: dict[str, dict[str, Any]], stored: Stored) -> Lost:
    """Compare receipts with what is stored, by id, position and leaf."""
    missing = [name for name in receipts if name not in stored.lines]
    other = [
        name
        for name, receipt in receipts.items()
        if name in stored.lines and stored.lines[name][:2] != (receipt["position"], receipt["leaf"])
    ]
    return Lost(missing, other)
