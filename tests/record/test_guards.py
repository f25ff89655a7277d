"""Nothing recorded is changed: the database itself refuses, whoever asks and however."""

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import Connection, create_engine
from sqlalchemy.exc import DBAPIError

from server.facts.judged import Severity, Verdict, Word
from server.record.book_of_lines import Record
from server.record.door_facts import Credential
from server.record.guards import APPEND_ONLY, missing_guards
from server.record.judged import Judged
from server.record.keeping_judged import keep_judged, keep_judged_to
from server.record.keeping_secrets import keep_credential
from server.record.troubles import RecordUnfit
from tests.record.fixtures import append, url_of
from tests.record.sample_lines import new_entry

TABLES = sorted(APPEND_ONLY)
VERDICT = Verdict("heat", "F-1/J1#1", Word.OUTSIDE, Severity.STOP, "too hot")


def fill(record: Record) -> None:
    judged = Judged("F-1/J1#1", "joint", "F-1", (VERDICT,))
    secret = Credential("P1", "pin", "hash", 0)
    append(
        record,
        new_entry(1),
        changes=(keep_judged([judged], 1, "then"), keep_judged_to(1, "then", 0), keep_credential(secret)),
    )
    record.checkpoint().result()


@pytest.fixture
def connection(url: str, tmp_path: Path) -> Iterator[Connection]:
    """A connection of somebody else to a filled record, on each engine."""
    record = Record.open(url, tmp_path)
    fill(record)
    record.close()
    engine = create_engine(url)
    with engine.connect() as opened:
        yield opened
    engine.dispose()


def refused(connection: Connection, statement: str) -> bool:
    try:
        with connection.begin():
            connection.exec_driver_sql(statement)
    except DBAPIError as error:
        return "append-only" in str(error.orig)
    return False


@pytest.mark.parametrize("table", TABLES)
def test_what_was_recorded_is_neither_changed_nor_removed(connection: Connection, table: str):
    """UPDATE and DELETE are refused on every append-only table, on SQLite and PostgreSQL."""
    column = APPEND_ONLY[table][0].split()[0]
    assert connection.exec_driver_sql(f"SELECT count(*) FROM {table}").scalar()
    connection.rollback()
    assert refused(connection, f"UPDATE {table} SET {column} = {column}")
    assert refused(connection, f"DELETE FROM {table}")


def test_a_table_is_not_emptied_at_once(url: str, connection: Connection):
    """TRUNCATE, which PostgreSQL has beside DELETE, is refused too."""
    for table in TABLES:
        assert url.startswith("sqlite") or refused(connection, f"TRUNCATE {table} CASCADE")


def test_the_door_may_change_what_it_keeps(connection: Connection):
    """Control: the tables that are no evidence can be changed by the same connection."""
    with connection.begin():
        connection.exec_driver_sql("UPDATE credential SET made_ms = 5")
        connection.exec_driver_sql("DELETE FROM credential")
    assert connection.exec_driver_sql("SELECT count(*) FROM credential").scalar() == 0


def test_without_its_guard_a_line_could_be_changed(connection: Connection, url: str):
    """Control: it is the trigger that refuses; once it is dropped, the same UPDATE goes through."""
    on_table = "" if url.startswith("sqlite") else " ON line"
    with connection.begin():
        connection.exec_driver_sql(f"DROP TRIGGER {missing_name(url)}{on_table}")
    assert not refused(connection, "UPDATE line SET device = 'other'")
    assert missing_guards(connection) == [missing_name(url)]


def missing_name(url: str) -> str:
    return "line_no_update" if url.startswith("sqlite") else "line_no_change"


def test_a_record_without_its_guards_is_not_opened(connection: Connection, url: str, tmp_path: Path):
    """At the start a missing guard is named, and the record stays closed."""
    test_without_its_guard_a_line_could_be_changed(connection, url)
    connection.close()
    with pytest.raises(RecordUnfit, match=missing_name(url)):
        Record.open(url, tmp_path)


def replacing(table: str, columns: list[str]) -> str:
    return f"INSERT OR REPLACE INTO {table} SELECT {', '.join(columns)} FROM {table}"


@pytest.mark.parametrize("table", TABLES)
def test_replace_is_refused(record: Record, file: Path, table: str):
    """REPLACE, which on SQLite removes a row without asking the delete trigger, is refused on every table."""
    fill(record)
    with closing(sqlite3.connect(file)) as other:
        assert other.execute("PRAGMA recursive_triggers").fetchone() == (0,)
        with pytest.raises(sqlite3.IntegrityError, match="append-only"):
            other.execute(replacing(table, ["*"]))


def test_replace_cannot_put_another_entry_under_a_taken_id(record: Record, file: Path):
    """REPLACE at a new position, but under the id of a taken entry, is refused as well."""
    fill(record)
    with closing(sqlite3.connect(file)) as other:
        columns = [row[1] for row in other.execute("PRAGMA table_info(line)")]
        moved = ["position + 100", *columns[1:]]
        with pytest.raises(sqlite3.IntegrityError, match="append-only"):
            other.execute(f"{replacing('line', moved)} WHERE position = 1")


def test_without_its_guard_replace_would_remove_a_line(record: Record, file: Path):
    """Control: without the insert trigger the same REPLACE goes through, delete trigger or not."""
    fill(record)
    with closing(sqlite3.connect(file)) as other:
        other.execute("DROP TRIGGER verdict_no_replace")
        other.execute("INSERT OR REPLACE INTO verdict SELECT * FROM verdict")


def test_guards_of_a_new_file_are_all_there(file: Path):
    """A new record has every guard."""
    engine: Any = create_engine(url_of(file))
    with engine.connect() as connection:
        assert missing_guards(connection) == []
    engine.dispose()
