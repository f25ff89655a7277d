"""Judges frames and what they share, and keeps what differs from before, beside the old."""

from collections.abc import Callable, Collection, Iterator, Sequence
from itertools import islice
from typing import NamedTuple, TypeVar

from server.facts.judged import Verdict
from server.facts.subject import read_joint_subject
from server.judgement.book import THEN, Book
from server.judgement.judge import judge_by_subject
from server.occasions.build import Shop
from server.record.book_of_lines import Record, now_ms
from server.record.judged import Judged
from server.record.keeping_judged import keep_judged, keep_judged_to
from server.record.reads import Reads
from server.record.written import Change, Written
from server.work.known_shop import known_shop, shop_at
from server.work.shared_level import Said, said_again
from server.work.uncollected import uncollected

Item = TypeVar("Item")
_FRAMES_AT_ONCE = 20
_SUBJECTS_AT_ONCE = 300
FRAME, SHARED = "frame", "shared"
"""The two levels that are judged: a frame whole, and everything that frames share."""


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
        shop = _shop(reads, position, book)
        return _judge_frames(record, reads, shop, sorted(frames), position, book, progress)


def judge_shared(record: Record, *, known_at: int | None = None, book: Book = THEN) -> JudgedSoFar:
    """Judge gas lines, cylinders, instruments, sleeves, welders, tablets and papers."""
    with record.reads(patient=True) as reads:
        position = reads.last_position() if known_at is None else known_at
        return _judge_shared(record, _shop(reads, position, book), position, book)


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
        shop = _shop(reads, known_at, book)
        for number, said in enumerate(said_again(before, shop, book, certain=certain)):
            if number and meanwhile:
                meanwhile()
            subjects += _keep_said(record, said, known_at, book)
    return JudgedSoFar(0, subjects, known_at)


def _keep_said(record: Record, said: Said, known_at: int, book: Book) -> int:
    judged = list(_by_subject(said, SHARED, None))
    judged += [_of_subject(subject, SHARED, None, []) for subject, verdicts in said.items() if not verdicts]
    for chunk in _in_chunks(judged, _SUBJECTS_AT_ONCE):
        _write(record, keep_judged(chunk, known_at, book.name, level=SHARED))
    return len(judged)


def judge_everything(record: Record, *, book: Book = THEN, progress: Progress | None = None) -> JudgedSoFar:
    """Judge every frame and everything shared, as known now, and note how far it went."""
    with uncollected():
        judged = _judge_whole(record, book, progress)
    note_judged_to(record, judged.known_at, book)
    return judged


def _judge_whole(record: Record, book: Book, progress: Progress | None) -> JudgedSoFar:
    with record.reads(patient=True) as reads:
        position = reads.last_position()
        shop = _shop(reads, position, book)
        frames = sorted(reads.registers(position).packets)
        of_frames = _judge_frames(record, reads, shop, frames, position, book, progress)
        shared = _judge_shared(record, shop, position, book)
    return JudgedSoFar(of_frames.frames, of_frames.subjects + shared.subjects, position)


def note_judged_to(record: Record, position: int, book: Book = THEN) -> None:
    """Note that everything up to a position has been judged."""
    noted: Written[None] = Written(answer=lambda _: None, changes=(keep_judged_to(position, book.name, now_ms()),))
    record.write(lambda _: noted).result()


def _shop(reads: Reads, position: int, book: Book) -> Shop:
    """Give the shop that is carried on from line to line; held against one day, everything is another."""
    return shop_at(reads, position) if book.on is None else Shop(known_shop(reads, position), book.on)


def _judge_frames(
    record: Record,
    reads: Reads,
    shop: Shop,
    wanted: Sequence[str],
    position: int,
    book: Book,
    progress: Progress | None,
) -> JudgedSoFar:
    subjects = 0
    for done, chunk in enumerate(_in_chunks(wanted, _FRAMES_AT_ONCE), 1):
        judged = _judged_frames(reads, shop, chunk, position, book)
        _keep(record, judged, position, book, chunk)
        subjects += len(judged)
        if progress:
            progress(min(done * _FRAMES_AT_ONCE, len(wanted)), len(wanted))
    return JudgedSoFar(len(wanted), subjects, position)


def _judge_shared(record: Record, shop: Shop, position: int, book: Book) -> JudgedSoFar:
    judged = list(_by_subject(judge_by_subject(shop.shared(), book), SHARED, None))
    _write(record, keep_judged(judged, position, book.name, level=SHARED, whole_level=True))
    return JudgedSoFar(0, len(judged), position)


def _judged_frames(reads: Reads, shop: Shop, frames: Sequence[str], position: int, book: Book) -> list[Judged]:
    packets = reads.registers(position).packets
    entries = reads.frames_entries(frames, position)
    judged: list[Judged] = []
    for frame in frames:
        if packet := packets.get(frame):
            found = judge_by_subject(shop.frame(packet, entries[frame]), book)
            judged += _by_subject(found, FRAME, frame)
    return judged


def _by_subject(found: Said, level: str, frame: str | None) -> Iterator[Judged]:
    """What is said of a quarter is kept with its joint."""
    grouped: dict[str, list[Verdict]] = {}
    for subject, verdicts in found.items():
        if verdicts:
            grouped.setdefault(subject.partition(":q")[0], []).extend(verdicts.values())
    for subject, verdicts_on_it in grouped.items():
        yield _of_subject(subject, level, frame, verdicts_on_it)


def _of_subject(subject: str, level: str, frame: str | None, verdicts: Sequence[Verdict]) -> Judged:
    joint = read_joint_subject(subject) if frame is None else None
    return Judged(subject, level, joint.frame if joint else frame, tuple(verdicts))


def _keep(record: Record, judged: Sequence[Judged], position: int, book: Book, whole_frames: Collection[str]) -> None:
    _write(record, keep_judged(judged, position, book.name, whole_frames, level=FRAME))


def _write(record: Record, change: Change) -> None:
    written: Written[None] = Written(answer=lambda _: None, changes=(change,))
    record.write(lambda _: written).result()


def _in_chunks(items: Sequence[Item], at_once: int) -> Iterator[list[Item]]:
    left = iter(items)
    while chunk := list(islice(left, at_once)):
        yield chunk
