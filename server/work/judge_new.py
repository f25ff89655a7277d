"""Judges what came since the last time; a crash between taking and judging is healed by the next run."""

import logging
import threading

from server.judgement.book import THEN, Book
from server.occasions.build import Shop
from server.record.book_of_lines import Record
from server.record.troubles import RecordTrouble
from server.work.judging import judge_everything, judge_frames, judge_shared, judge_shared_since, note_judged_to
from server.work.known_shop import shop_at
from server.work.shared_level import SharedLevel
from server.work.touched import Touched, touched_by

_LINES_AT_ONCE = 2000
_LOG = logging.getLogger(__name__)


def judge_new(record: Record, book: Book = THEN, level: SharedLevel | None = None) -> int:
    """Judge everything new lines touch, up to the last line; gives how many lines were new.

    Of what frames share only that is judged again which changed since `level` was kept; without one, all of it.
    """
    with record.reads(patient=True) as reads:
        start, last = reads.judged_to(book.name), reads.last_position()
        if start >= last:
            return 0
        lines = reads.lines_between(start + 1, min(last, start + _LINES_AT_ONCE))
        touched = Touched(frozenset(), True) if start == 0 else touched_by(reads, lines)
    if start == 0:
        return judge_everything(record, book=book).known_at
    judge_frames(record, touched.frames, known_at=last, book=book)
    if touched.shared:
        _judge_shared(record, start, last, book, level)
    note_judged_to(record, lines[-1].position, book)
    if level:
        with record.reads(patient=True) as reads:
            level.keep(lines[-1].position, shop_at(reads, last) if touched.shared else None)
    return len(lines)


def _judge_shared(record: Record, start: int, last: int, book: Book, level: SharedLevel | None) -> None:
    with record.reads(patient=True) as reads:
        judged = level.before(start) if level else None
        before: Shop | None = judged or (reads.carried_at(start) if level else None)
    if before is None:
        judge_shared(record, known_at=last, book=book)
        return
    frames = _Frames(record, last, book)
    judge_shared_since(
        record, before, known_at=last, book=book, certain=judged is not None, meanwhile=frames.catch_up
    )


class _Frames:
    """The frames that new lines touch, judged while much else is: a welder waits for nothing but his own."""

    def __init__(self, record: Record, judged_to: int, book: Book) -> None:
        self._record, self._judged_to, self._book = record, judged_to, book

    def catch_up(self) -> None:
        """Judge the frames of what came since the last time; they are noted as judged with all the rest."""
        with self._record.reads(patient=True) as reads:
            last = reads.last_position()
            if last == self._judged_to:
                return
            touched = touched_by(reads, reads.lines_between(self._judged_to + 1, last))
        judge_frames(self._record, touched.frames, known_at=last, book=self._book)
        self._judged_to = last


class Judge(threading.Thread):
    """Judges in the background whenever something was taken; a rule that breaks costs no entry, only its verdict."""

    def __init__(self, record: Record, patience_s: float = 30.0) -> None:
        super().__init__(name="judge", daemon=True)
        self._record = record
        self._patience_s = patience_s
        self._level = SharedLevel()
        self._something_new = threading.Event()
        self._ending = False
        self.trouble: str | None = None

    def soon(self) -> None:
        """Say that something was taken."""
        self._something_new.set()

    def stop(self) -> None:
        """End after what is being judged."""
        self._ending = True
        self._something_new.set()
        self.join()

    def run(self) -> None:
        """Judge until told to stop."""
        while not self._ending:
            self._something_new.clear()
            self._catch_up()
            self._something_new.wait(self._patience_s)

    def _catch_up(self) -> None:
        try:
            while not self._ending and judge_new(self._record, level=self._level):
                pass
            self.trouble = None
        except RecordTrouble as trouble:
            self.trouble = str(trouble)
        except Exception as error:
            self.trouble = f"judging failed: {error}"
            _LOG.exception("judging failed; what was taken is kept and will be judged again")
