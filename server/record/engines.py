"""The two doors to a database: one for the only writer, one for readers who cannot change anything."""

import sqlite3
from typing import NamedTuple

from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.engine import make_url
from sqlalchemy.pool import QueuePool

READERS = 8
_BUSY_MS = 5000
FORGETTING = "secure_delete=ON"
"""What is emptied or moved is written over, from the first row on, so that no page keeps it in its free room."""
_WRITERS_CACHE_KIB = 16_000
_WRITERS_STATEMENTS = 32
"""How many the writer keeps ready; one that inserts many lines is large."""


class Engines(NamedTuple):
    """The writer's engine with its single connection, and the readers' engine."""

    writing: Engine
    reading: Engine

    @property
    def is_sqlite(self) -> bool:
        """Say which of the two databases it is."""
        return self.writing.dialect.name == "sqlite"


def make_engines(url: str) -> Engines:
    """Make both engines for a SQLite file or a PostgreSQL database; nothing is connected yet."""
    if make_url(url).get_backend_name() == "sqlite":
        return _sqlite_engines(url)
    writing = create_engine(url, pool_size=1, max_overflow=0)
    reading = create_engine(url, pool_size=READERS, isolation_level="REPEATABLE READ")
    event.listen(reading, "begin", _begin_reading_postgres)
    return Engines(writing, reading)


def migrating_engine(url: str) -> Engine:
    """Make an engine for changing the schema: foreign keys off, since a table made anew would lose its children."""
    if make_url(url).get_backend_name() != "sqlite":
        return create_engine(url)
    engine = create_engine(url)
    event.listen(engine, "connect", _connect_migrating)
    event.listen(engine, "begin", _begin_immediate)
    return engine


def _sqlite_engines(url: str) -> Engines:
    threads = {"check_same_thread": False}
    writer = {**threads, "cached_statements": _WRITERS_STATEMENTS}
    writing = create_engine(url, poolclass=QueuePool, pool_size=1, max_overflow=0, connect_args=writer)
    event.listen(writing, "connect", _connect_writer)
    event.listen(writing, "begin", _begin_immediate)
    reading = create_engine(url, poolclass=QueuePool, pool_size=READERS, connect_args=threads)
    event.listen(reading, "connect", _connect_reader)
    event.listen(reading, "begin", _begin_deferred)
    return Engines(writing, reading)


def _connect(connection: sqlite3.Connection, *pragmas: str) -> None:
    # None hands BEGIN and COMMIT to us; the driver's own begin is deferred and comes too late for a schema change.
    connection.isolation_level = None
    for pragma in (f"busy_timeout={_BUSY_MS}", "trusted_schema=OFF", *pragmas):
        connection.execute(f"PRAGMA {pragma}")


def _connect_writer(connection: sqlite3.Connection, _: object) -> None:
    # An automatic checkpoint swallows the disk's errors, so the writer makes its checkpoints itself.
    _connect(
        connection,
        "journal_mode=WAL",
        "synchronous=FULL",
        "wal_autocheckpoint=0",
        "foreign_keys=ON",
        "recursive_triggers=ON",
        FORGETTING,
        # What a statement may have to take back is kept in memory; the log alone says what is kept for good.
        "temp_store=MEMORY",
        # Ids and chains are put in all over their trees, of which SQLite keeps only 2 MB at hand by itself.
        f"cache_size={-_WRITERS_CACHE_KIB}",
    )


def _connect_reader(connection: sqlite3.Connection, _: object) -> None:
    _connect(connection, "query_only=ON", "wal_autocheckpoint=0")


def _connect_migrating(connection: sqlite3.Connection, _: object) -> None:
    _connect(connection, "journal_mode=WAL", "synchronous=FULL", "foreign_keys=OFF", FORGETTING)


def _begin_immediate(connection: Connection) -> None:
    connection.exec_driver_sql("BEGIN IMMEDIATE")


def _begin_deferred(connection: Connection) -> None:
    connection.exec_driver_sql("BEGIN")


def _begin_reading_postgres(connection: Connection) -> None:
    connection.exec_driver_sql("SET TRANSACTION READ ONLY")
