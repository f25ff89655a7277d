"""Judges beside this process in another one, which takes pieces of a whole judging for as long as it lives."""

import logging
import pickle
import signal
from collections import deque
from collections.abc import Callable, Iterator, Sequence
from contextlib import closing, contextmanager, suppress
from datetime import date
from multiprocessing import get_context
from multiprocessing.connection import Connection
from queue import SimpleQueue
from threading import Thread
from typing import NamedTuple

from server.judgement.book import RULES, Book
from server.record.judged import Said
from server.record.reading_only import reading_only
from server.work.asking_the_book import AskingTheBook, Piece
from server.work.reading_ahead import cores
from server.work.uncollected import uncollected

_WORTH_IT = 100
"""Fewer frames are judged before another process has started and knows the shop."""
_TOO_LONG = 400_000
"""What is known of a shop of more lines takes too much memory to be held twice."""
_GIVEN_AT_ONCE = 6
_READY = pickle.dumps(())
"""Told once the other knows the shop; until then nobody waits for a piece it was given."""
_LOG = logging.getLogger(__name__)
Judging = Callable[[Piece], list[Said]]


class ToJudge(NamedTuple):
    """What is judged: a record, up to a position, by a book of all rules as of a day."""

    url: str
    position: int
    book: str
    on: date | None


@contextmanager
def judging_beside(url: str, position: int, book: Book, frames: int) -> Iterator[Connection | None]:
    """Give the way to another process that judges while the block runs; none where none is worth it or can be had."""
    if frames < _WORTH_IT or position > _TOO_LONG or cores() == 1 or book.rules is not RULES:
        yield None
        return
    # A process started anew holds nothing of the record, neither its files nor its threads.
    anew = get_context("spawn")
    here, there = anew.Pipe()
    process = anew.Process(target=_judge_on, args=(there, ToJudge(url, position, book.name, book.on)), daemon=True)
    with closing(here):
        with closing(there):
            started = _started(process.start)
        try:
            yield here if started else None
        finally:
            if started:
                process.kill()
                process.join()


def _started(start: Callable[[], None]) -> bool:
    try:
        start()
    except OSError as trouble:
        _LOG.warning("no other process could be started (%s); this one judges alone", trouble)
        return False
    return True


def in_order(pieces: Sequence[Piece], judge: Judging, other: Connection | None) -> Iterator[list[Said]]:
    """Give what is said of each piece, in their order, whoever judged it."""
    shared_out = _SharedOut(pieces, judge, other)
    return (shared_out.said_of(number) for number in range(len(pieces)))


class _SharedOut:
    """Pieces that are judged here and by the other process; it is never waited for, so it may end when it likes."""

    def __init__(self, pieces: Sequence[Piece], judge: Judging, other: Connection | None) -> None:
        self._pieces = pieces
        self._judge = judge
        self._other = other
        self._ready = False
        self._left = deque(range(len(pieces)))
        self._given: deque[int] = deque()
        """What the other was given and has not answered, in the order in which it will."""
        self._judged: set[int] = set()
        self._said: dict[int, list[Said]] = {}

    def said_of(self, wanted: int) -> list[Said]:
        """Judge on until it is known what is said of a piece; asked for in their order, each once."""
        self._take_in()
        while wanted not in self._judged:
            self._give_out()
            number = self._next()
            self._put(number, self._judge(self._pieces[number]))
            self._take_in()
        return self._said.pop(wanted)

    def _next(self) -> int:
        """Give what nobody has begun; in the end, what the other would come to last."""
        if self._left:
            return self._left.popleft()
        return next(number for number in reversed(self._given) if number not in self._judged)

    def _put(self, number: int, said: list[Said]) -> None:
        if number not in self._judged:
            self._judged.add(number)
            self._said[number] = said

    def _give_out(self) -> None:
        try:
            while self._ready and self._other and len(self._given) < _GIVEN_AT_ONCE and len(self._left) > 1:
                self._other.send(self._pieces[self._left[0]])
                self._given.append(self._left.popleft())
        except OSError:
            self._go_on_alone()

    def _take_in(self) -> None:
        try:
            while self._other and self._other.poll():
                said = self._other.recv()
                if self._ready:
                    self._put(self._given.popleft(), said)
                self._ready = True
        except (EOFError, OSError):
            self._go_on_alone()

    def _go_on_alone(self) -> None:
        _LOG.warning("the other process ended; this one judges on alone")
        self._other = None
        self._left.extendleft(number for number in reversed(self._given) if number not in self._judged)
        self._given.clear()


def _judge_on(there: Connection, what: ToJudge) -> None:
    # Who stops a judging stops the process that keeps it, and that one ends this.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    answers: SimpleQueue[bytes] = SimpleQueue()
    Thread(target=_answer, args=(there, what, answers), daemon=True).start()
    # An answer waits until it is taken, while the next piece is judged.
    with suppress(OSError):
        while answer := answers.get():
            there.send_bytes(answer)


def _answer(there: Connection, what: ToJudge, answers: "SimpleQueue[bytes]") -> None:
    try:
        with uncollected(), reading_only(what.url) as reads:
            asking = AskingTheBook(reads, what.position, Book(what.book, on=what.on))
            answers.put(_READY)
            for piece in _given(there):
                answers.put(pickle.dumps(asking.about(piece)))
    finally:
        answers.put(b"")


def _given(there: Connection) -> Iterator[Piece]:
    with suppress(EOFError, OSError):
        while True:
            yield there.recv()
