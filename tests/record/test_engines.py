"""How a connection is set: durable for the writer, unable to change anything for readers."""

from pathlib import Path

import pytest
from sqlalchemy.exc import DBAPIError

from server.record.book_of_lines import Record
from server.record.engines import make_engines
from server.record.troubles import DatabaseAway
from tests.record.fixtures import append
from tests.record.sample_lines import new_entry


@pytest.mark.parametrize(
    ("pragma", "value"),
    [
        ("journal_mode", "wal"),
        ("synchronous", 2),
        ("wal_autocheckpoint", 0),
        ("foreign_keys", 1),
        ("recursive_triggers", 1),
        ("busy_timeout", 5000),
        ("trusted_schema", 0),
    ],
)
def test_the_writer_is_durable_and_checkpoints_by_itself(tmp_path: Path, pragma: str, value: object):
    """The writer syncs every commit to the disk, and SQLite makes no checkpoint of its own accord."""
    engines = make_engines(f"sqlite:///{tmp_path / 'a.sqlite3'}")
    with engines.writing.connect() as connection:
        assert connection.exec_driver_sql(f"PRAGMA {pragma}").scalar() == value
    engines.writing.dispose()


def test_readers_cannot_write(either: Record):
    """What a reader is given refuses every change, on both engines."""
    with either.reads() as reads, pytest.raises(DBAPIError, match="read"):
        reads._connection.exec_driver_sql("UPDATE credential SET made_ms = 0")


def test_the_writer_can(either: Record):
    """Control: the same statement goes through the writer."""
    append(either, changes=(lambda connection: connection.exec_driver_sql("UPDATE credential SET made_ms = 0"),))


def test_a_reader_sees_one_state(either: Record):
    """While a reader asks, what is written meanwhile does not show; asked anew, it does."""
    with either.reads() as reads:
        assert list(reads.every_entry()) == []
        append(either, new_entry(1))
        assert list(reads.every_entry()) == []
    with either.reads() as reads:
        assert len(list(reads.every_entry())) == 1


def test_a_database_that_does_not_answer_is_told_in_words(tmp_path: Path):
    """Nothing listens on the first port: the driver's reason in one line, and what to see to."""
    with pytest.raises(DatabaseAway, match=r"cannot be reached: .*port 1 .*; see that PostgreSQL runs") as refused:
        Record.open("postgresql://nobody@127.0.0.1:1/shop", tmp_path)
    assert "\n" not in str(refused.value)
