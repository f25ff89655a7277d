"""The questions being asked just now: how long the oldest is open, and how those that hold up the record are ended."""

import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Connection, Engine, event

from server.record.troubles import ReadEnded

LONGEST_READ_S = 5.0
_NAME = "open_read"
_LOOK_EVERY_STEPS = 200_000


@dataclass(eq=False)
class _OpenRead:
    driver: Any
    since_s: float
    patient: bool
    ended: bool = False


class OpenReads:
    """Every open read; while one lasts, SQLite's write-ahead log cannot be emptied."""

    def __init__(self, engine: Engine) -> None:
        self._lock = threading.Lock()
        self._open: set[_OpenRead] = set()
        event.listen(engine, "before_cursor_execute", _refuse_ended)

    @contextmanager
    def holding(self, connection: Connection, *, patient: bool) -> Iterator[None]:
        """Count a read as open while the block runs; a patient one is never ended by us."""
        read = _OpenRead(connection.connection.driver_connection, time.monotonic(), patient)
        connection.info[_NAME] = read
        if connection.dialect.name == "sqlite":
            # Not interrupt() alone: that would refuse our own ROLLBACK as well.
            read.driver.set_progress_handler(lambda: read.ended, _LOOK_EVERY_STEPS)
        with self._lock:
            self._open.add(read)
        try:
            yield
        except Exception as error:
            if read.ended:
                raise ReadEnded from error
            raise
        finally:
            with self._lock:
                self._open.discard(read)
            del connection.info[_NAME]

    def oldest_s(self) -> float:
        """Give how long the oldest read is open [s]; 0 when none is."""
        with self._lock:
            return max((time.monotonic() - each.since_s for each in self._open), default=0.0)

    def end_the_stuck(self, longest_s: float = LONGEST_READ_S) -> int:
        """End the reads that are open for longer and not patient; give how many there were."""
        before_s = time.monotonic() - longest_s
        with self._lock:
            stuck = [each for each in self._open if each.since_s <= before_s and not each.patient and not each.ended]
            for each in stuck:
                each.ended = True
                # It may be idle between two statements: only without its transaction is the log free.
                each.driver.execute("ROLLBACK")
                # A cursor that is half read keeps its state until it is asked for its next row, which is refused.
                each.driver.interrupt()
        return len(stuck)


def _refuse_ended(connection: Connection, *_: object) -> None:
    # Without its transaction each further statement would see another state of the record.
    read: _OpenRead | None = connection.info.get(_NAME)
    if read is not None and read.ended:
        raise ReadEnded
