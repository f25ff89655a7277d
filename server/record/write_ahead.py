"""Moves SQLite's write-ahead log into the file when it has grown, so that a failing disk is noticed and told."""

import logging
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

from sqlalchemy import Connection

from server.record.disk_words import trouble_of
from server.record.troubles import RecordClosed

MOVE_EVERY_BYTES = 4_000_000
SELDOM_BYTES = 32_000_000
"""Half of what is told as too long; a whole shop is moved in a few turns by it."""
ALARM_AT_BYTES = 64_000_000
_LOG = logging.getLogger(__name__)


class WriteAhead:
    """The log beside one SQLite file; only the writer tends it, so no checkpoint can race a commit."""

    def __init__(self, file: Path, end_stuck_reads: Callable[[], int] = lambda: 0) -> None:
        self._log = file.with_name(f"{file.name}-wal")
        self._left_bytes = 0
        self._alarmed = False
        self._laid_down = False
        self._end_stuck_reads = end_stuck_reads
        self.forgetting = False
        self.seldom = False

    @property
    def bytes(self) -> int:
        """How long the log is."""
        return self._log.stat().st_size if self._log.exists() else 0

    def forget(self) -> None:
        """Have the log emptied at the next turn, and at every further one until that went: something was removed."""
        self.forgetting = True

    def lay_down(self, connection: Connection) -> None:
        """Make the log and have the disk keep its name, before anything is answered; a disk error is raised."""
        if self._laid_down:
            return
        # SQLite syncs the folder of a new log too, but tells nobody when that fails. The kernel tells a failure to
        # everyone who had the folder open by then, hence before the log is made.
        folder = os.open(self._log.parent, os.O_RDONLY)
        try:
            _commit_something(connection)
            os.fsync(folder)
        except OSError as failed:
            raise RecordClosed(f"the disk did not keep the folder of the record ({failed})") from failed
        finally:
            os.close(folder)
        self._laid_down = True

    def why_not_laid_down(self, connection: Connection) -> RecordClosed | None:
        """Lay the log down at the start; what may mend itself, such as a full disk, is tried again later."""
        try:
            self.lay_down(connection)
        except Exception as error:
            trouble = trouble_of(error)
            if trouble is None:
                raise
            _LOG.error("the write-ahead log could not be made: %s", trouble)
            return trouble if isinstance(trouble, RecordClosed) else None
        return None

    def tend(self, connection: Connection, *, ending: bool) -> None:
        """Move what is committed into the file once the log is long, and at the end; a disk error is raised."""
        # A reader may hold the log as it is; then it is tried again when it has grown as much once more.
        long = self._left_bytes + (SELDOM_BYTES if self.seldom else MOVE_EVERY_BYTES)
        if ending or self.forgetting or self.bytes >= long:
            _move(connection)
            self.forgetting = self.forgetting and self.bytes > 0
            self._left_bytes = self.bytes
            self._alarm(self.bytes)
            if self.bytes >= ALARM_AT_BYTES and (ended := self._end_stuck_reads()):
                _LOG.warning("%d reads that held the write-ahead log open were ended", ended)
                _move(connection)

    def _alarm(self, length: int) -> None:
        if length >= ALARM_AT_BYTES and not self._alarmed:
            _LOG.warning("the write-ahead log is %d bytes long: a reader has been holding it open", length)
        self._alarmed = length >= ALARM_AT_BYTES


def _commit_something(connection: Connection) -> None:
    # Writing the mark in the file's header as it is changes nothing, and needs the log.
    with connection.begin():
        mark = connection.exec_driver_sql("PRAGMA user_version").scalar()
        connection.exec_driver_sql(f"PRAGMA user_version={mark}")


def _move(connection: Connection) -> None:
    # Outside a transaction, hence past SQLAlchemy, which would begin one; and without waiting for any reader.
    driver: Any = connection.connection.driver_connection
    waits = driver.execute("PRAGMA busy_timeout").fetchone()[0]
    driver.execute("PRAGMA busy_timeout=0")
    try:
        driver.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
    finally:
        driver.execute(f"PRAGMA busy_timeout={waits}")
