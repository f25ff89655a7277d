"""Opens the writer's connection on a database that is fit for it, making an empty record where there is none."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import NamedTuple

from sqlalchemy import Connection, func, select
from sqlalchemy.engine import make_url
from sqlalchemy.exc import DatabaseError, OperationalError

from server.record.copy_mark import is_copy
from server.record.engines import Engines
from server.record.schema import bring_up_to_date, look_at, revision_of
from server.record.sealing import Sealer
from server.record.signing_key import make_signer, read_signer
from server.record.tables.columns import CHECKPOINT
from server.record.tail_check import odd_tail
from server.record.troubles import CopyNotContinued, DatabaseAway, RecordClosed, RecordUnfit, WriterTaken

_WRITERS_LOCK = 0x57E1D


def file_of(url: str) -> Path | None:
    """Give the file a SQLite URL names; none for PostgreSQL."""
    parsed = make_url(url)
    return Path(parsed.database) if parsed.get_backend_name() == "sqlite" and parsed.database else None


class Opened(NamedTuple):
    """The writer's connection, who seals, and why nothing may be written where that is so."""

    connection: Connection
    sealer: Sealer | None
    closed: RecordClosed | None


def open_writer(
    engines: Engines, url: str, folder: Path | None, now: Callable[[], int], *, continuing: bool = False
) -> Opened:
    """Connect the writer and find its key; an empty database gets its tables, any other must have the right ones."""
    try:
        return _opened(engines, url, folder, now, continuing=continuing)
    except DatabaseError as broken:
        if not engines.is_sqlite or isinstance(broken, OperationalError):
            raise
        engines.writing.dispose()
        raise RecordUnfit(
            f"the database cannot be read: {broken.orig}; run check-record, look after the disk, and restore a backup "
            "where the file is damaged"
        ) from broken


def _opened(engines: Engines, url: str, folder: Path | None, now: Callable[[], int], *, continuing: bool) -> Opened:
    with told_when_away(engines), engines.writing.connect() as connection:
        empty = revision_of(connection) is None
    if empty:
        bring_up_to_date(url)
    connection = engines.writing.connect()
    try:
        with connection.begin():
            look_at(connection)
            be_the_only_writer(connection)
            return Opened(connection, _find_sealer(connection, folder, now), _why_closed(connection, continuing))
    except Exception:
        connection.close()
        engines.writing.dispose()
        raise


@contextmanager
def told_when_away(engines: Engines) -> Iterator[None]:
    """Tell in words that PostgreSQL went away or cannot be reached, while the block runs."""
    try:
        yield
    except OperationalError as away:
        # What failed before any statement could be sent failed to connect.
        if engines.is_sqlite or not (away.connection_invalidated or away.statement is None):
            raise
        raise DatabaseAway(str(away.orig).strip().partition("\n")[0]) from away


def _why_closed(connection: Connection, continuing: bool) -> RecordClosed | None:
    """Look whether the record may go on: it is no copy, and its last lines and its last checkpoint hold."""
    if is_copy(connection) and not continuing:
        return CopyNotContinued()
    if odd := odd_tail(connection):
        more = f" (and {len(odd) - 1} more)" if len(odd) > 1 else ""
        return RecordClosed(f"its last lines do not hold: {odd[0]}{more}")
    return None


def _find_sealer(connection: Connection, folder: Path | None, now: Callable[[], int]) -> Sealer | None:
    """Find the key that signs checkpoints, or make one for a record that never signed any; none when it is lost."""
    signer = read_signer(folder) if folder else None
    if signer is None and folder and not _was_ever_signed(connection):
        signer = make_signer(folder)
    return Sealer(signer, now) if signer else None


def _was_ever_signed(connection: Connection) -> bool:
    return connection.execute(select(func.count(CHECKPOINT.size))).scalar_one() > 0


def be_the_only_writer(connection: Connection) -> None:
    """Take the one lock there is for writers, for as long as the connection lasts; raises `WriterTaken`."""
    # SQLite lets one connection write at a time by itself; PostgreSQL has to be asked, once for the session.
    if connection.dialect.name == "sqlite":
        return
    if not connection.execute(select(func.pg_try_advisory_lock(_WRITERS_LOCK))).scalar():
        raise WriterTaken
