"""A full disk, a failing disk and a busy file are told apart, and what each of them does to the record."""

import sqlite3
from collections.abc import Callable
from typing import Any

import pytest
from psycopg import errors
from sqlalchemy import Connection
from sqlalchemy.exc import OperationalError

from server.record.book_of_lines import Record
from server.record.disk_words import trouble_of
from server.record.lines import NewLine
from server.record.troubles import NoRoom, RecordBusy, RecordClosed, RecordTrouble
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry


def sqlite_error(name: str, kind: type[sqlite3.Error] = sqlite3.OperationalError) -> OperationalError:
    error = kind("as SQLite says it")
    error.sqlite_errorname = name
    return OperationalError("INSERT", {}, error)


@pytest.mark.parametrize(
    ("error", "trouble"),
    [
        (sqlite_error("SQLITE_FULL"), NoRoom),
        (sqlite_error("SQLITE_IOERR_WRITE"), NoRoom),
        (sqlite_error("SQLITE_IOERR_FSYNC"), RecordClosed),
        (sqlite_error("SQLITE_IOERR_TRUNCATE").orig, RecordClosed),
        (sqlite_error("SQLITE_CORRUPT", sqlite3.DatabaseError), RecordClosed),
        (sqlite_error("SQLITE_READONLY"), RecordClosed),
        (sqlite_error("SQLITE_BUSY"), RecordBusy),
        (OperationalError("INSERT", {}, errors.DiskFull()), NoRoom),
        (OperationalError("INSERT", {}, Exception(), connection_invalidated=True), RecordClosed),
        (NoRoom(), NoRoom),
    ],
)
def test_trouble_with_the_disk_is_named(error: BaseException, trouble: type[RecordTrouble]):
    """Each error that concerns the whole record becomes the trouble that says what to do."""
    assert type(trouble_of(error)) is trouble


@pytest.mark.parametrize("error", [sqlite_error("SQLITE_CONSTRAINT_UNIQUE"), ValueError("no"), KeyError("no")])
def test_a_verbs_own_error_is_no_trouble(error: BaseException):
    """Control: what only a verb did wrong does not concern the record."""
    assert trouble_of(error) is None


def big(number: int) -> NewLine:
    return new_entry(number, note="x" * 20_000)


def limit_pages(more: int) -> Callable[[Connection], object]:
    """Let the file grow by so many pages and no more, which SQLite answers as it does a full disk."""

    def change(connection: Connection) -> None:
        pages = connection.exec_driver_sql("PRAGMA page_count").scalar_one()
        connection.exec_driver_sql(f"PRAGMA max_page_count={pages + more}")

    return change


def test_a_full_disk_takes_nothing_and_recovers_by_itself(record: Record):
    """Without room nothing is answered as taken and reading goes on; with room, taking does too, without a restart."""
    append(record, new_entry(0), changes=(limit_pages(20),))
    taken: list[int] = []
    with pytest.raises(NoRoom, match="nothing was taken"):
        taken.extend(append(record, big(number))[0].position for number in range(1, 100))
    with record.reads() as reads:
        assert [each.position for each in reads.every_entry()] == [1, *taken]
    with pytest.raises(NoRoom):
        append(record, big(200))
    append(record, changes=(limit_pages(10_000),))
    assert append(record, big(201))[0].position == len(taken) + 2
    assert record.condition().fit


def failing(error: Exception) -> Callable[[Any], object]:
    def change(_: Any) -> None:
        raise error

    return change


def test_the_first_failed_sync_closes_the_record(record: Record):
    """After a sync has failed nobody is told `taken` any more, what was kept can still be read, and it says why."""
    append(record, new_entry(1))
    with pytest.raises(RecordClosed, match="SQLITE_IOERR_FSYNC"):
        append(record, changes=(failing(sqlite_error("SQLITE_IOERR_FSYNC")),))
    with pytest.raises(RecordClosed, match="restart the program, and run check-record"):
        append(record, new_entry(2))
    with record.reads() as reads:
        assert len(list(reads.every_entry())) == 1
    condition = record.condition()
    assert not condition.fit
    assert "SQLITE_IOERR_FSYNC" in str(condition.closed)


def test_a_busy_file_does_not_close_it(record: Record):
    """Control: after a trouble that passes, the next line is taken."""
    with pytest.raises(RecordBusy, match="send the entries again"):
        append(record, changes=(failing(sqlite_error("SQLITE_BUSY")),))
    assert append(record, new_entry(1))[0].position == 1
