"""Copies a whole SQLite record while it is written, and says how far the copy reaches."""

import os
import sqlite3
from contextlib import closing
from pathlib import Path
from typing import NamedTuple
from urllib.parse import quote

from sqlalchemy import func, select

from server.evidence.frontier import Frontier
from server.record.copy_mark import mark_as_copy
from server.record.engines import make_engines
from server.record.saying import Say, unsaid
from server.record.sealing import SignedCheckpoint, newest_checkpoint
from server.record.tables.columns import LINE

_AT_ONCE = 10_000
_PAGES_AT_ONCE = 2_000


class Reached(NamedTuple):
    """How many lines a record holds, the root over all their leaves, and its newest checkpoint."""

    lines: int
    root: bytes
    checkpoint: SignedCheckpoint | None


def copy_record(file: Path, copy: Path, say: Say = unsaid) -> None:
    """Copy one unchanging state of the file, its write-ahead log included, into a new file that is marked as a copy.

    Raises sqlite3.Error or OSError, and then leaves nothing that could be taken for a copy.
    """
    try:
        # Read-only, so that this connection can never be the one that moves the write-ahead log.
        with (
            closing(sqlite3.connect(f"file:{quote(str(file))}?mode=ro", uri=True, timeout=30)) as source,
            closing(sqlite3.connect(copy, isolation_level=None)) as target,
        ):
            copy_pages(source, target, say)
            target.execute("PRAGMA journal_mode=DELETE")
            mark_as_copy(target)
        sync(copy)
        sync(copy.parent)
    except BaseException:
        copy.unlink(missing_ok=True)
        raise


def copy_pages(source: sqlite3.Connection, target: sqlite3.Connection, say: Say) -> None:
    """Copy all pages as they stand now, some at a time, so that it can be told and be broken off."""
    megabyte = 1_000_000 / source.execute("PRAGMA page_size").fetchone()[0]

    def told(_: int, left: int, of: int) -> None:
        say("megabytes copied", int((of - left) / megabyte), int(of / megabyte))

    # One state is read from the first page to the last: without that, each line taken meanwhile begins it anew.
    source.execute("BEGIN")
    source.execute("SELECT count(*) FROM sqlite_master").fetchone()
    source.backup(target, pages=_PAGES_AT_ONCE, progress=told)
    source.execute("ROLLBACK")


def how_far(file: Path, say: Say = unsaid) -> Reached:
    """Say how far a record reaches, from every leaf in its file."""
    engines = make_engines(f"sqlite:///{file}")
    try:
        with engines.reading.connect() as connection, connection.begin():
            lines = connection.execute(select(func.max(LINE.position))).scalar() or 0
            tree = Frontier()
            asked = select(LINE.leaf).order_by(LINE.position).execution_options(yield_per=_AT_ONCE)
            for number, leaf in enumerate(connection.execute(asked).scalars()):
                tree.append(leaf)
                if not number % _AT_ONCE:
                    say("leaves of its tree", number, lines)
            return Reached(lines, tree.root(), newest_checkpoint(connection))
    finally:
        engines.reading.dispose()


def sync(path: Path) -> None:
    """Have the disk keep a file, or a folder's list of names, for good."""
    opened = os.open(path, os.O_RDONLY)
    try:
        os.fsync(opened)
    finally:
        os.close(opened)
