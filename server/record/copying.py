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
from server.record.sealing import SignedCheckpoint, newest_checkpoint
from server.record.tables.columns import LINE

_AT_ONCE = 10_000


class Reached(NamedTuple):
    """How many lines a record holds, the root over all their leaves, and its newest checkpoint."""

    lines: int
    root: bytes
    checkpoint: SignedCheckpoint | None


def copy_record(file: Path, copy: Path) -> None:
    """Copy one unchanging state of the file, its write-ahead log included, into a new file that is marked as a copy.

    Raises sqlite3.Error or OSError, and then leaves nothing that could be taken for a copy.
    """
    try:
        # Read-only, so that this connection can never be the one that moves the write-ahead log.
        with (
            closing(sqlite3.connect(f"file:{quote(str(file))}?mode=ro", uri=True, timeout=30)) as source,
            closing(sqlite3.connect(copy, isolation_level=None)) as target,
        ):
            source.backup(target)
            target.execute("PRAGMA journal_mode=DELETE")
            mark_as_copy(target)
        sync(copy)
        sync(copy.parent)
    except BaseException:
        copy.unlink(missing_ok=True)
        raise


def how_far(file: Path) -> Reached:
    """Say how far a record reaches, from every leaf in its file."""
    engines = make_engines(f"sqlite:///{file}")
    try:
        with engines.reading.connect() as connection, connection.begin():
            lines = connection.execute(select(func.max(LINE.position))).scalar() or 0
            tree = Frontier()
            asked = select(LINE.leaf).order_by(LINE.position).execution_options(yield_per=_AT_ONCE)
            for leaf in connection.execute(asked).scalars():
                tree.append(leaf)
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
