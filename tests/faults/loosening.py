"""Ways the service is made worse, or its limits smaller, so that a proof has its control; named in an order."""

import os
from collections.abc import Callable
from pathlib import Path

from sqlalchemy import event

from server.record import engines, write_ahead
from server.record.book_of_lines import Record
from server.record.writer import Writer

Connecting = Callable[..., None]


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


_ALL = (short_log, moved_at_once, normal, automatic, pages)


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
