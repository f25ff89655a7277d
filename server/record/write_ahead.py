"""Moves SQLite's write-ahead log into the file when it has grown, so that a failing disk is noticed and told."""

import logging
from collections.abc import Callable
from pathlib import Path
from typing import Any

from sqlalchemy import Connection

MOVE_EVERY_BYTES = 4_000_000
ALARM_AT_BYTES = 64_000_000
_LOG = logging.getLogger(__name__)


class WriteAhead:
    """The log beside one SQLite file; only the writer tends it, so no checkpoint can race a commit."""

    def __init__(self, file: Path, end_stuck_reads: Callable[[], int] = lambda: 0) -> None:
        self._log = file.with_name(f"{file.name}-wal")
        self._move_at = MOVE_EVERY_BYTES
        self._alarmed = False
        self._end_stuck_reads = end_stuck_reads

    @property
    def bytes(self) -> int:
        """How long the log is."""
        return self._log.stat().st_size if self._log.exists() else 0

    def tend(self, connection: Connection, *, ending: bool) -> None:
        """Move what is committed into the file once the log is long, and at the end; a disk error is raised."""
        if ending or self.bytes >= self._move_at:
            _move(connection)
            # A reader may hold the log as it is; then it is tried again when it has grown as much once more.
            self._move_at = self.bytes + MOVE_EVERY_BYTES
            self._alarm(self.bytes)
            if self.bytes >= ALARM_AT_BYTES and (ended := self._end_stuck_reads()):
                _LOG.warning("%d reads that held the write-ahead log open were ended", ended)
                _move(connection)

    def _alarm(self, length: int) -> None:
        if length >= ALARM_AT_BYTES and not self._alarmed:
            _LOG.warning("the write-ahead log is %d bytes long: a reader has been holding it open", length)
        self._alarmed = length >= ALARM_AT_BYTES


def _move(connection: Connection) -> None:
    # Outside a transaction, hence past SQLAlchemy, which would begin one; and without waiting for any reader.
    driver: Any = connection.connection.driver_connection
    waits = driver.execute("PRAGMA busy_timeout").fetchone()[0]
    driver.execute("PRAGMA busy_timeout=0")
    try:
        driver.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()
    finally:
        driver.execute(f"PRAGMA busy_timeout={waits}")
