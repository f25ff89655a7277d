"""Judges frames and what they share, and keeps what differs from before, beside the old."""

from collections import deque
from collections.abc import Callable, Collection, Iterable, Iterator, Sequence
from concurrent.futures import Future
from itertools import chain, islice
from typing import NamedTuple, TypeVar

from server.judgement.book import THEN, Book
from server.occasions.build import Shop
from server.record.book_of_lines import Record, now_ms
from server.record.judged import Said
from server.record.keeping_judged import keep_judged_to, keep_said
from server.record.written import Change, Written
from server.work.asking_the_book import FRAME, SHARED, AskingTheBook, by_subject, of_subject
from server.work.judging_beside import in_order, judging_beside
from server.work.shared_level import Answers, said_again
from server.work.uncollected import uncollected

Item = TypeVar("Item")
_FRAMES_AT_ONCE = 20
_SUBJECTS_AT_ONCE = 300
_FRAMES_TO_A_PIECE = 5
_IN_FLIGHT = 8


class JudgedSoFar(NamedTuple):
    """How many frames and subjects were judged, and up to which record position."""

    frames: int
    subjects: int
    known_at: int


Progress = Callable[[int, int], None]


def judge_frames(
    record: Record,
    frames: Collection[str],
    *,
    known_at: int | None = None,
    book: Book = THEN,
    progress: Progress | None = None,
) -> JudgedSoFar:
    """Judge these frames whole; what stood about them and is not found again is gone."""
    with record.reads(patient=True) as reads:
        position = reads.last_position() if known_at is None else known_at
        asking = AskingTheBook(reads, position, book)
        keeping = _Keeping(record, position, book)
        chunks = _in_chunks(sorted(frames), _FRAMES_AT_ONCE)
        subjects = keeping.frames(((chunk, asking.about(chunk)) for chunk in chunks), len(frames), progress)
        return JudgedSoFar(len(frames), subjects, position)


def judge_shared(record: Record, *, known_at: int | None = None, book: Book = THEN) -> JudgedSoFar:
    """Judge gas lines, cylinders, instruments, sleeves, welders, tablets and papers."""
    with record.reads(patient=True) as reads:
        position = reads.last_position() if known_at is None else known_at
        return JudgedSoFar(
            0, _Keeping(record, position, book).shared(AskingTheBook(reads, position, book).about(None)), position
        )


def judge_shared_since(
    record: Record,
    before: Shop,
    *,
    known_at: int,
    book: Book = THEN,
    certain: bool = True,
    meanwhile: Callable[[], None] | None = None,
) -> JudgedSoFar:
    """Judge of it what may stand otherwise than when it was judged before; on a new day that may be anything.

    Where there is much of it, what is not to wait for it is done `meanwhile`.
    """
    subjects = 0
    with record.reads(patient=True) as reads:
        shop = AskingTheBook(reads, known_at, book).shop
        keeping = _Keeping(record, known_at, book)
        for number, found in enumerate(said_again(before, shop, book, certain=certain)):
            if number and meanwhile:
                meanwhile()
            subjects += keeping.some_shared(found)
    return JudgedSoFar(0, subjects, known_at)


def judge_everything(
    record: Record, *, book: Book = THEN, progress: Progress | None = None, closely: bool = False
) -> JudgedSoFar:
    """Judge every frame and everything shared, as known now, and note how far it went.

    `closely` what stood before is believed no digest, but compared word by word.
    """
    with uncollected():
        judged = _judge_whole(record, book, progress, closely)
    note_judged_to(record, judged.known_at, book)
    return judged


def _judge_whole(record: Record, book: Book, progress: Progress | None, closely: bool) -> JudgedSoFar:
    with record.reads(patient=True) as reads:
        position = reads.last_position()
        frames = sorted(reads.registers(position).packets)
        with judging_beside(record.url, position, book, len(frames)) as other:
            asking = AskingTheBook(reads, position, book)
            to_a_piece = _FRAMES_TO_A_PIECE if other else _FRAMES_AT_ONCE
            told = in_order([*_in_chunks(frames, to_a_piece), None], asking.about, other)
            keeping = _Keeping(record, position, book, closely=closely)
            subjects = keeping.frames(_joined(frames, to_a_piece, told), len(frames), progress)
            subjects += keeping.shared(next(told))
    return JudgedSoFar(len(frames), subjects, position)


def _joined(
    frames: Sequence[str], to_a_piece: int, told: Iterator[list[Said]]
) -> Iterator[tuple[list[str], list[Said]]]:
    """Give what is said of as many frames as are kept at once, from what is said of some fewer."""
    for chunk in _in_chunks(frames, _FRAMES_AT_ONCE):
        pieces = -(-len(chunk) // to_a_piece)
        yield chunk, list(chain.from_iterable(islice(told, pieces)))


def note_judged_to(record: Record, position: int, book: Book = THEN) -> None:
    """Note that everything up to a position has been judged."""
    noted: Written[None] = Written(answer=lambda _: None, changes=(keep_judged_to(position, book.name, now_ms()),))
    record.write(lambda _: noted).result()


class _Keeping:
    """Keeps what was said at one position under one book; the writer keeps it while what comes next is judged."""

    def __init__(self, record: Record, position: int, book: Book, *, closely: bool = False) -> None:
        self._record = record
        self._closely = closely
        self._position = position
        self._book = book
        self._waiting: deque[Future[None]] = deque()

    def frames(self, told: Iterable[tuple[Sequence[str], list[Said]]], of: int, progress: Progress | None) -> int:
        """Keep what was said of frames, which were judged whole; gives about how many subjects."""
        subjects = done = 0
        for frames, said in told:
            place = (self._position, self._book.name, frames)
            self._keep(keep_said(said, *place, level=FRAME, closely=self._closely))
            subjects += len(said)
            done += len(frames)
            if progress:
                progress(done, of)
        self._wait_for_all_but(0)
        return subjects

    def shared(self, said: list[Said]) -> int:
        """Keep all that was said of what frames share; gives about how many subjects."""
        place = (self._position, self._book.name)
        self._keep(keep_said(said, *place, level=SHARED, whole_level=True, closely=self._closely))
        self._wait_for_all_but(0)
        return len(said)

    def some_shared(self, found: Answers) -> int:
        """Keep what was said of some things that frames share; gives how many subjects."""
        told = list(by_subject(found, SHARED, None))
        told += [of_subject(subject, SHARED, None, []) for subject, verdicts in found.items() if not verdicts]
        for chunk in _in_chunks(told, _SUBJECTS_AT_ONCE):
            self._keep(keep_said(chunk, self._position, self._book.name, level=SHARED))
        self._wait_for_all_but(0)
        return len(told)

    def _keep(self, change: Change) -> None:
        written: Written[None] = Written(answer=lambda _: None, changes=(change,))
        self._waiting.append(self._record.write(lambda _: written))
        self._wait_for_all_but(_IN_FLIGHT)

    def _wait_for_all_but(self, left: int) -> None:
        while len(self._waiting) > left:
            self._waiting.popleft().result()


def _in_chunks(items: Sequence[Item], at_once: int) -> Iterator[list[Item]]:
    left = iter(items)
    while chunk := list(islice(left, at_once)):
        yield chunk
