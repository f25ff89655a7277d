"""Judges what came since the last time; a crash between taking and judging is healed by the next run."""

import logging
import threading

from server.judgement.book import THEN, Book
from server.record.book_of_lines import Record
from server.record.troubles import RecordTrouble
from server.work.judging import judge_everything, judge_frames, judge_shared, note_judged_to
from server.work.touched import Touched, touched_by

_LINES_AT_ONCE = 2000
_LOG = logging.getLogger(__name__)


def judge_new(record: Record, book: Book = THEN) -> int:
    """Judge everything new lines touch, up to the last line; gives how many lines were new."""
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
        judge_shared(record, known_at=last, book=book)
    note_judged_to(record, lines[-1].position, book)
    return len(lines)


class Judge(threading.Thread):
    """Judges in the background whenever something was taken; a rule that breaks costs no entry, only its verdict."""

    def __init__(self, record: Record, patience_s: float = 30.0) -> None:
        super().__init__(name="judge", daemon=True)
        self._record = record
        self._patience_s = patience_s
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
            while not self._ending and judge_new(self._record):
                pass
            self.trouble = None
        except RecordTrouble as trouble:
            self.trouble = str(trouble)
        except Exception as error:
            self.trouble = f"judging failed: {error}"
            _LOG.exception("judging failed; what was taken is kept and will be judged again")
