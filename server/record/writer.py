"""The one writer: takes the verbs that wait, runs each under its savepoint, commits once for all, then answers."""

import logging
import threading
import time
from collections.abc import Callable, Sequence
from concurrent.futures import Future
from queue import Empty, SimpleQueue
from typing import Any, NamedTuple, TypeAlias

from sqlalchemy import Connection, func, select

from server.record.disk_words import trouble_of
from server.record.drafts import Draft
from server.record.inserting import insert_lines
from server.record.sealing import AFTER_LINES, Sealer, seal
from server.record.standing import Standing, read_standing
from server.record.tables.columns import LINE
from server.record.tally import Tally
from server.record.troubles import NoRoom, RecordClosed, RecordUnfit
from server.record.write_ahead import WriteAhead
from server.record.written import Written

MOST_AT_ONCE = 64
_LOG = logging.getLogger(__name__)

ConnectedVerb: TypeAlias = Callable[[Connection, int, int], Written[Any]]
"""A verb that asks over the writer's own connection; it is told which position is kept for good, and the last one."""


class _Waiting(NamedTuple):
    verb: ConnectedVerb | None
    """None asks for a checkpoint."""
    future: Future[Any]


class _Turn(NamedTuple):
    verb: ConnectedVerb
    future: Future[Any]


class _Outcome(NamedTuple):
    future: Future[Any]
    answer: Any = None
    error: BaseException | None = None

    def tell(self) -> None:
        if self.error is None:
            self.future.set_result(self.answer)
        else:
            self.future.set_exception(self.error)


class Writer(threading.Thread):
    """Owns the only writing connection; nothing else commits, and nobody is answered before the commit."""

    def __init__(
        self,
        connection: Connection,
        write_ahead: WriteAhead | None,
        sealer: Sealer | None,
        closed: RecordClosed | None = None,
    ) -> None:
        super().__init__(name="record-writer", daemon=True)
        self.closed = closed
        self.tally = Tally()
        self._connection = connection
        self._write_ahead = write_ahead
        self._sealer = sealer
        self._queue: SimpleQueue[_Waiting | None] = SimpleQueue()
        self._standing: Standing | None = None

    def submit(self, verb: ConnectedVerb | None) -> Future[Any]:
        """Let a verb wait for its turn; without a verb, ask for a checkpoint."""
        future: Future[Any] = Future()
        if self.closed:
            future.set_exception(self.closed)
        else:
            self._queue.put(_Waiting(verb, future))
        return future

    def stop(self) -> None:
        """Finish what waits, seal it, and end."""
        self._queue.put(None)
        self.join()

    def run(self) -> None:
        """Serve until told to stop."""
        going_on = True
        while going_on:
            waiting = self._gather()
            going_on = None not in waiting
            self._serve([each for each in waiting if each and each.future.set_running_or_notify_cancel()])
            self._tend(ending=not going_on)
        self.closed = self.closed or RecordClosed("it was closed")
        self._refuse_the_rest()
        self._connection.close()

    def _gather(self) -> list[_Waiting | None]:
        waiting = [self._queue.get()]
        while len(waiting) < MOST_AT_ONCE and waiting[-1] is not None:
            try:
                waiting.append(self._queue.get_nowait())
            except Empty:
                break
        return waiting

    def _serve(self, waiting: Sequence[_Waiting]) -> None:
        verbs = [_Turn(each.verb, each.future) for each in waiting if each.verb]
        self._answer(verbs, lambda: self._group(verbs))
        seals = [each for each in waiting if not each.verb]
        self._answer(seals, lambda: self._seal(seals))

    def _answer(self, waiting: Sequence[_Waiting | _Turn], work: Callable[[], Sequence[_Outcome]]) -> None:
        if not waiting:
            return
        try:
            if self._write_ahead and not self.closed:
                self._write_ahead.lay_down(self._connection)
            outcomes = [_Outcome(each.future, error=self.closed) for each in waiting] if self.closed else work()
        except Exception as error:
            failure = self._troubled(error)
            outcomes = [_Outcome(each.future, error=failure) for each in waiting]
        for outcome in outcomes:
            outcome.tell()

    def _troubled(self, error: Exception) -> Exception:
        trouble = trouble_of(error)
        _LOG.error("nothing of this group was kept: %s", trouble or error, exc_info=None if trouble else error)
        # What was drafted is gone, and what the database now holds is not known: read it anew.
        self._standing = None
        if isinstance(trouble, RecordClosed):
            self.tally.disk_failures += 1
            self.closed = trouble
        if isinstance(trouble, NoRoom):
            self.tally.no_room += 1
            self.tally.room_is_missing = True
        return trouble or error

    def _group(self, verbs: Sequence[_Turn]) -> list[_Outcome]:
        began_s = time.monotonic()
        with self._connection.begin():
            standing = self._where_it_stands()
            draft = Draft(standing)
            outcomes = [self._one(each, draft, standing.size) for each in verbs]
        self.tally.kept(len(draft.leaves), time.monotonic() - began_s)
        standing.keep(draft)
        return outcomes

    def _one(self, turn: _Turn, draft: Draft, kept: int) -> _Outcome:
        branch = Draft(draft)
        try:
            with self._connection.begin_nested():
                written = turn.verb(self._connection, kept, draft.size)
                placed = insert_lines(self._connection, branch, written.lines)
                for change in written.changes:
                    change(self._connection)
                answer = written.answer(placed)
        except Exception as error:
            if trouble_of(error):
                raise
            return _Outcome(turn.future, error=error)
        draft.merge(branch)
        return _Outcome(turn.future, answer)

    def _where_it_stands(self) -> Standing:
        last = self._connection.execute(select(func.max(LINE.position))).scalar() or 0
        if self._standing is None or self._standing.size != last:
            self._standing = read_standing(self._connection)
        if self._standing.size != last:
            raise RecordClosed(f"of the lines up to position {last} some are missing")
        return self._standing

    def _seal(self, waiting: Sequence[_Waiting]) -> list[_Outcome]:
        if self._sealer is None:
            raise RecordUnfit("there is no signing key, so no checkpoint can be signed; put record.key back")
        with self._connection.begin():
            signed = seal(self._connection, self._where_it_stands(), self._sealer)
        return [_Outcome(each.future, signed) for each in waiting]

    def _tend(self, *, ending: bool) -> None:
        if self.closed:
            return
        standing = self._standing
        unsealed = standing.size - standing.sealed_size if standing else 0
        if self._sealer and unsealed >= (1 if ending else AFTER_LINES):
            self._answer([_Waiting(None, Future())], lambda: self._seal([]))
        if self._write_ahead and not self.closed:
            try:
                self._write_ahead.tend(self._connection, ending=ending)
            except Exception as error:
                self._troubled(error)

    def _refuse_the_rest(self) -> None:
        while not self._queue.empty():
            if waiting := self._queue.get():
                waiting.future.set_exception(self.closed)
