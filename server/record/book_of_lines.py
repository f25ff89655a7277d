"""The record: opened once, written by its one writer, read by as many as like."""

import time
from collections.abc import Callable, Iterator
from concurrent.futures import Future
from contextlib import AbstractContextManager, contextmanager
from pathlib import Path
from typing import TypeVar

from sqlalchemy import Connection

from server.record.asking import Remembered
from server.record.condition import Condition, condition_of
from server.record.counting import counting
from server.record.engines import Engines, make_engines
from server.record.open_reads import OpenReads
from server.record.opening import file_of, open_writer, told_when_away
from server.record.pepper import find_pepper
from server.record.reads import Reads
from server.record.sealing import SignedCheckpoint
from server.record.tally import Tally
from server.record.write_ahead import WriteAhead
from server.record.writer import Writer
from server.record.written import Written

Answer = TypeVar("Answer")
_FORGETTING_TURNS, _FORGETTING_WAIT_S = 20, 0.1


def now_ms() -> int:
    """Give the time by this machine's clock [ms, UTC]."""
    return time.time_ns() // 1_000_000


class Record:
    """What was recorded, and the only way to add to it."""

    def __init__(self, engines: Engines, writer: Writer, write_ahead: WriteAhead | None, open_reads: OpenReads) -> None:
        self._engines = engines
        self._open_reads = open_reads
        self._writer = writer
        self._write_ahead = write_ahead
        self._remembered = Remembered()
        self.pepper = b""

    @staticmethod
    def open(
        url: str, folder: Path | None = None, now: Callable[[], int] = now_ms, *, continuing: bool = False
    ) -> "Record":
        """Open the record, making an empty one where there is none; the signing key lies in the folder.

        The folder of a SQLite file is its own; a PostgreSQL record without a folder signs no checkpoints. A record
        that must not be written, such as a restored copy (unless it is opened to be continued), is open but closed.
        """
        file = file_of(url)
        engines = make_engines(url)
        beside = folder or (file.parent if file else None)
        opened = open_writer(engines, url, beside, now, continuing=continuing)
        open_reads = OpenReads(engines.reading)
        write_ahead = WriteAhead(file, open_reads.end_the_stuck) if file else None
        closed = opened.closed or (write_ahead.why_not_laid_down(opened.connection) if write_ahead else None)
        writer = Writer(opened.connection, write_ahead, opened.sealer, closed)
        writer.start()
        record = Record(engines, writer, write_ahead, open_reads)
        record.pepper = find_pepper(beside) if beside else b""
        return record

    @property
    def url(self) -> str:
        """The database, as another process is told to open it."""
        return self._engines.reading.url.render_as_string(hide_password=False)

    def write(self, verb: Callable[[Reads], Written[Answer]]) -> "Future[Answer]":
        """Let a verb ask and append; the future is answered once all of it is kept for good, or with its error."""

        def connected(connection: Connection, kept: int, last: int) -> Written[Answer]:
            return verb(Reads(connection, self._remembered, kept, last))

        return self._writer.submit(connected)

    @contextmanager
    def at_length(self) -> Iterator[None]:
        """Let SQLite's log grow longer before it is moved: a whole folder is told, and nobody waits for one line."""
        if self._write_ahead is None:
            yield
            return
        self._write_ahead.seldom = True
        try:
            yield
        finally:
            self._write_ahead.seldom = False

    @contextmanager
    def reads(self, *, patient: bool = False) -> Iterator[Reads]:
        """Ask questions of one unchanging state of the record.

        Once the write-ahead log has grown too long, a read that is not patient and lasts for seconds is ended.
        """
        with (
            told_when_away(self._engines),
            self._engines.reading.connect() as connection,
            connection.begin(),
            self._open_reads.holding(connection, patient=patient),
        ):
            yield Reads(connection, self._remembered)

    def checkpoint(self) -> "Future[SignedCheckpoint]":
        """Seal everything kept so far and sign it; where nothing came since, the last checkpoint is given again."""
        return self._writer.submit(None)

    def forget(self) -> bool:
        """Empty the write-ahead log of what was removed; tell whether it is, or a reader keeps it for a while yet."""
        if self._write_ahead is None:
            return True
        self._write_ahead.forget()
        for _ in range(_FORGETTING_TURNS):
            # The log is tended behind each turn, so the second is only answered once the first was tended.
            for _ in range(2):
                self.write(lambda _: Written(answer=lambda _: None)).result()
            if not self._write_ahead.forgetting:
                return True
            time.sleep(_FORGETTING_WAIT_S)
        return False

    @property
    def forgetting(self) -> bool:
        """Tell whether the write-ahead log may still hold what was removed."""
        return bool(self._write_ahead and self._write_ahead.forgetting)

    def counting(self) -> AbstractContextManager[list[str]]:
        """Collect the statements sent to the database while the block runs."""
        return counting(self._engines)

    def condition(self) -> Condition:
        """Give how the record is: its engine, its schema, and why it is closed where it is."""
        with told_when_away(self._engines), self._engines.reading.connect() as connection:
            found = condition_of(connection, self._writer.closed, self._write_ahead)
        return found._replace(oldest_read_s=self._open_reads.oldest_s())

    @property
    def tally(self) -> Tally:
        """What the writer counted since the record was opened."""
        return self._writer.tally

    def close(self) -> None:
        """Finish what waits, sign a last checkpoint, and let go of the database."""
        self._engines.reading.dispose()
        self._writer.stop()
        self._engines.writing.dispose()
