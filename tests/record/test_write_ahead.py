"""SQLite's write-ahead log is emptied by the writer itself, and a disk that fails while it does so is told."""

import logging
import os
import sqlite3
from contextlib import closing
from pathlib import Path
from types import SimpleNamespace

import pytest
from sqlalchemy import Connection

from server.record import write_ahead
from server.record.book_of_lines import Record
from server.record.troubles import NoRoom, RecordClosed
from tests.record.fixtures import append, url_of
from tests.record.sample_lines import new_entry


@pytest.fixture(autouse=True)
def _short(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(write_ahead, "MOVE_EVERY_BYTES", 100_000)
    monkeypatch.setattr(write_ahead, "SELDOM_BYTES", 300_000)
    monkeypatch.setattr(write_ahead, "ALARM_AT_BYTES", 400_000)


def fill(record: Record, first: int, lines: int) -> None:
    for number in range(first, first + lines):
        append(record, new_entry(number, note="x" * 20_000))
    append(record)


def test_the_log_is_moved_into_the_file(record: Record, file: Path):
    """Once the log has grown long, it is emptied and the file holds what it held."""
    fill(record, 0, 20)
    assert record.condition().write_ahead_bytes < 200_000
    assert file.stat().st_size > 400_000


def test_while_a_folder_is_told_it_is_moved_less_often(record: Record, file: Path, monkeypatch: pytest.MonkeyPatch):
    """At length the log grows as long as it may then, and not longer; afterwards it is moved as early as ever."""
    move, moved_at = write_ahead._move, list[int]()

    def moving(connection: Connection) -> None:
        moved_at.append(file.with_name(f"{file.name}-wal").stat().st_size)
        move(connection)

    monkeypatch.setattr(write_ahead, "_move", moving)
    with record.at_length():
        fill(record, 0, 20)
    seldom = len(moved_at)
    fill(record, 100, 20)
    assert moved_at[:seldom]
    assert all(300_000 <= length < 400_000 for length in moved_at[:seldom])
    assert all(100_000 <= length < 200_000 for length in moved_at[seldom + 1 :])
    assert len(moved_at) >= 3 * seldom


def test_a_reader_holds_the_log_and_the_writer_goes_on(record: Record, file: Path, caplog: pytest.LogCaptureFixture):
    """A reader that stays open lets the log grow, which is said once; when it has gone the log is emptied."""
    with closing(sqlite3.connect(file)) as reader:
        reader.execute("BEGIN")
        reader.execute("SELECT count(*) FROM line").fetchone()
        with caplog.at_level(logging.WARNING):
            fill(record, 0, 40)
        assert record.condition().write_ahead_bytes > 800_000
    assert [each.message for each in caplog.records if "a reader has been holding" in each.message]
    assert len(caplog.records) == 1
    fill(record, 100, 10)
    assert record.condition().write_ahead_bytes < 300_000


def test_an_error_while_moving_closes_the_record(record: Record, monkeypatch: pytest.MonkeyPatch):
    """A sync that fails while the log is moved is not swallowed: the record closes."""
    error = sqlite3.OperationalError("disk I/O error")
    error.sqlite_errorname = "SQLITE_IOERR_FSYNC"

    def fail(_: object) -> None:
        raise error

    monkeypatch.setattr(write_ahead, "_move", fail)
    with pytest.raises(RecordClosed, match="SQLITE_IOERR_FSYNC"):
        fill(record, 0, 20)


def test_no_wal_stays_behind_after_closing(record: Record, file: Path):
    """After closing, the one file is the whole record."""
    fill(record, 0, 3)
    record.close()
    assert not file.with_name("record.sqlite3-wal").exists()


def failing(name: str) -> sqlite3.OperationalError:
    error = sqlite3.OperationalError(name)
    error.sqlite_errorname = name
    return error


def test_opened_on_a_full_disk_it_takes_entries_once_there_is_room(file: Path, monkeypatch: pytest.MonkeyPatch):
    """Where the log cannot be made for want of room the record can be read, refuses, and later goes on by itself."""
    making, full = write_ahead._commit_something, [True]

    def make(connection: Connection) -> None:
        if full[0]:
            raise failing("SQLITE_FULL")
        making(connection)

    monkeypatch.setattr(write_ahead, "_commit_something", make)
    record = Record.open(url_of(file))
    with pytest.raises(NoRoom):
        append(record, new_entry(1))
    assert record.condition().lines == 0
    full[0] = False
    append(record, new_entry(1))
    record.close()


def test_a_folder_that_is_not_kept_closes_the_record(file: Path, monkeypatch: pytest.MonkeyPatch):
    """When the sync of the record's folder fails at the start, it can be read and takes nothing."""

    def fail(_: int) -> None:
        raise OSError(5, "Input/output error")

    system = SimpleNamespace(open=os.open, close=os.close, O_RDONLY=os.O_RDONLY, fsync=fail)
    monkeypatch.setattr(write_ahead, "os", system)
    record = Record.open(url_of(file))
    with pytest.raises(RecordClosed, match="did not keep the folder"):
        append(record, new_entry(1))
    assert not record.condition().fit
    record.close()
