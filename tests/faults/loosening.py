"""Ways the service is made worse, or its limits smaller, so that a proof has its control; named in an order."""

import os
import sqlite3
import time
from collections.abc import Callable
from concurrent.futures import Future
from contextlib import closing
from pathlib import Path
from typing import Any

from sqlalchemy import event

from server.record import engines, schema, write_ahead
from server.record.book_of_lines import Record
from server.record.reading_lines import LineReads
from server.record.writer import Writer

Connecting = Callable[..., None]
_SLOW_DISK_S = 0.02


def short_log(_: Path) -> None:
    """Move the write-ahead log after every 100 kB, so that a short run meets many moves."""
    write_ahead.MOVE_EVERY_BYTES = 100_000


def moved_at_once(_: Path) -> None:
    """Move the write-ahead log after every commit, so that its syncs and the file's own take turns."""
    write_ahead.MOVE_EVERY_BYTES = 1


def normal(_: Path) -> None:
    """Control: commits without waiting for the disk, which SQLite calls synchronous=NORMAL."""
    _besides("PRAGMA synchronous=NORMAL")


def automatic(_: Path) -> None:
    """Control: SQLite moves its log by itself, which it does without telling of a failing disk."""
    _besides("PRAGMA wal_autocheckpoint=20")
    write_ahead.MOVE_EVERY_BYTES = 1_000_000_000


def early(_: Path) -> None:
    """Control: an entry is answered before it is kept, and kept a moment later, as on a disk that takes its time."""
    one: Any = Writer._one

    def answering_first(self: Writer, *arguments: object) -> Any:
        outcome = one(self, *arguments)
        outcome.tell()
        time.sleep(_SLOW_DISK_S)
        return outcome._replace(future=Future())

    Writer._one = answering_first  # type: ignore[assignment,method-assign]


def keyless(data: Path) -> None:
    """Control: nobody looks whether an entry was sent before, neither the program nor the guards of the file."""
    LineReads.sendings = lambda *_: {}  # type: ignore[method-assign]
    schema.missing_guards = lambda _: []  # type: ignore[attr-defined,assignment]
    with closing(sqlite3.connect(data / "record.sqlite3")) as file:
        file.execute("DROP TRIGGER IF EXISTS line_no_replace")
        file.execute("DROP INDEX IF EXISTS ux_line_first")


def swallowing(_: Path) -> None:
    """Control: what could not be kept is answered as if it had been."""
    one: Any = Writer._one
    group: Any = Writer._group
    told: list[Any] = []

    def remembering(self: Writer, *arguments: object) -> Any:
        told.append(one(self, *arguments))
        return told[-1]

    def swallow(self: Writer, verbs: object) -> Any:
        told.clear()
        try:
            return group(self, verbs)
        except Exception:
            self._standing = None
            return list(told)

    Writer._one, Writer._group = remembering, swallow  # type: ignore[assignment,method-assign]


def pages(data: Path) -> None:
    """Let the file grow to as many pages as the file `pages` in the data folder says, and no further."""
    opening = Record.open

    def limited(*arguments: object, **further: object) -> Record:
        record = opening(*arguments, **further)  # type: ignore[arg-type]
        event.listen(record._engines.writing, "begin", _limit(data / "pages"))
        return record

    Record.open = limited  # type: ignore[method-assign]


def syncs_before(number: int) -> Callable[[Path], None]:
    """Let the writer sync another file so often before it begins: a fault set on its n-th sync comes earlier."""

    def loosen(data: Path) -> None:
        run = Writer.run

        def syncing_first(self: Writer) -> None:
            with (data / ".syncs").open("wb") as file:
                for _ in range(number):
                    os.fdatasync(file.fileno())
            run(self)

        Writer.run = syncing_first  # type: ignore[method-assign]

    return loosen


def loosening(name: str) -> Callable[[Path], None]:
    """Give a loosening by its name, such as `normal` or `syncs_before:12`."""
    word, _, number = name.partition(":")
    return syncs_before(int(number)) if number else {each.__name__: each for each in _ALL}[word]


_ALL = (short_log, moved_at_once, normal, automatic, early, keyless, swallowing, pages)


def _besides(pragma: str) -> None:
    connecting: Connecting = engines._connect_writer

    def connect(connection: object, further: object) -> None:
        connecting(connection, further)
        connection.execute(pragma)  # type: ignore[attr-defined]

    engines._connect_writer = connect  # type: ignore[assignment]


def _limit(file: Path) -> Callable[..., None]:
    def begin(connection: object) -> None:
        connection.exec_driver_sql(f"PRAGMA max_page_count={int(file.read_text())}")  # type: ignore[attr-defined]

    return begin
