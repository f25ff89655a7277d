"""Loads a shop folder through the verbs: registers first, then papers and deliveries in the order they came."""

import heapq
from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Future
from typing import Any, NamedTuple, TypeAlias

from server.evidence.canonical import parse_line
from server.evidence.salted import fresh_salt
from server.facts.orders import Customer
from server.record.book_of_lines import Record
from server.record.keeping_details import KeptDetails, keep_details
from server.record.lines import NewLine, StoredLine
from server.record.reads import Reads
from server.record.register_lines import register_line
from server.record.written import Written
from server.work.customers_apart import Salt, customers_told, told_apart
from server.work.folder_line import FolderLine, digest_of_words
from server.work.reading_ahead import ReadTold, reading_ahead
from server.work.shop_folder import ShopFolder
from server.work.take_deliveries import receiving_for
from server.work.uncollected import uncollected

FOLDER = "IMPORT"
_AT_ONCE = 1200
_IN_FLIGHT = 4800
"""So many lines wait together for the writer: told by the runs, of which most are short, it would often wait for us."""
_NAMED_BY_ENTRIES = ("person", "design")
"""What is read back from the record before a further entry may name it; they come from the start, and seldom later."""
Seen: TypeAlias = set[tuple[str, str, bytes]]


class Loaded(NamedTuple):
    """What a load did: the lines of the folder, how many lines the record grew by, and which customers stay nameless.

    The folder still tells the names of `left_out`, but their details were removed, so that they were not taken.
    """

    told: int
    added: int
    left_out: tuple[str, ...] = ()


class _Before(NamedTuple):
    """What the record was told before: each register line by its words, and the customers who were removed."""

    seen: Seen
    removed: frozenset[str]
    left_out: list[str]

    def is_new(self, line: FolderLine) -> bool:
        if isinstance(line.noun, Customer) and line.noun.id in self.removed:
            self.left_out.append(line.noun.id)
            return False
        key = (line.noun.kind, line.noun.id, line.digest)
        known = key in self.seen
        self.seen.add(key)
        return not known


def load_folder(
    record: Record,
    folder: ShopFolder,
    now_ms: int,
    progress: Callable[[int, int], None] | None = None,
    salt: Salt = fresh_salt,
) -> Loaded:
    """Tell the record everything the folder tells; what it knows already changes nothing."""
    with uncollected(), record.at_length():
        return _load(record, folder, _When(now_ms, salt), progress)


class _When(NamedTuple):
    now_ms: int
    salt: Salt


def _load(record: Record, folder: ShopFolder, when: _When, progress: Callable[[int, int], None] | None) -> Loaded:
    with record.reads() as reads:
        start = reads.last_position()
        before = _Before(_told_before(reads), frozenset(reads.registers().customer_removals), [])
    done = 0
    # What a sending says is read before the writer's turn.
    with reading_ahead(folder, when.now_ms) as came:
        told = ((len(run), _tell(record, run, before, when)) for run in _runs(_in_order(folder, came)))
        for count in _waited_for(told):
            done += count
            if progress:
                progress(done, folder.lines)
    with record.reads() as reads:
        return Loaded(done, reads.count_after(start), tuple(dict.fromkeys(before.left_out)))


def _in_order(folder: ShopFolder, came: Iterator[ReadTold]) -> Iterator[ReadTold]:
    yield from folder.from_the_start
    yield from heapq.merge(folder.later, came, key=_came_ms)


def _came_ms(item: ReadTold) -> int:
    return item.received_ms or 0 if isinstance(item, FolderLine) else item[0].received_ms


def _waited_for(told: Iterator[tuple[int, "Future[Any]"]]) -> Iterator[int]:
    """Let a few runs wait together, so that the writer keeps several at once; give how long each was once kept."""
    waiting: deque[tuple[int, Future[Any]]] = deque()
    in_flight = 0
    for each in told:
        waiting.append(each)
        in_flight += each[0]
        while in_flight > _IN_FLIGHT:
            in_flight -= waiting[0][0]
            yield _kept(*waiting.popleft())
    while waiting:
        yield _kept(*waiting.popleft())


def _kept(count: int, future: "Future[Any]") -> int:
    future.result()
    return count


def _runs(told: Iterable[ReadTold]) -> Iterator[list[ReadTold]]:
    """Cut what is told into runs, none too long; who and what entries name is known before the run they stand in."""
    run: list[ReadTold] = []
    named = False
    for item in told:
        if len(run) >= _AT_ONCE or (named and not isinstance(item, FolderLine)):
            yield run
            run, named = [], False
        run.append(item)
        named = named or (isinstance(item, FolderLine) and item.noun.kind in _NAMED_BY_ENTRIES)
    yield run


def _tell(record: Record, run: Sequence[ReadTold], before: _Before, when: _When) -> "Future[None]":
    read = [item for item in run if not isinstance(item, FolderLine) or before.is_new(item)]
    return record.write(lambda reads: _written(reads, read, when))


def _written(reads: Reads, read: Sequence[ReadTold], when: _When) -> Written[None]:
    first = reads.last_position()
    receiving = receiving_for(reads, [item[1] for item in read if not isinstance(item, FolderLine)])
    apart: list[KeptDetails] = []
    for item in read:
        if isinstance(item, FolderLine):
            line, kept = _told(item, first + len(receiving.lines), when)
            receiving.tell(line, item.noun)
            apart += kept
        else:
            receiving.take(*item)
    return Written(_nothing, receiving.lines, (keep_details(apart),) if apart else ())


def _nothing(_: object) -> None:
    """Answer a run of a folder, which asks for no receipts."""


def _told(item: FolderLine, position: int, when: _When) -> tuple[NewLine, tuple[KeptDetails, ...]]:
    """Make the line of a paper that will stand behind a position, and what of a customer goes beside it."""
    received_ms = when.now_ms if item.received_ms is None else item.received_ms
    if isinstance(item.noun, Customer):
        line, kept = told_apart(item.words, position + 1, received_ms, FOLDER, when.salt())
        return line, (kept,)
    return register_line(item.noun, FOLDER, received_ms, body=item.body_at(position)), ()


def _told_before(reads: Reads) -> Seen:
    """Read which register lines the record was told already, each by the digest of the words it was told in."""
    return {(line.kind, line.id, _digest(line)) for line in reads.told_lines()} | customers_told(reads)


def _digest(line: StoredLine) -> bytes:
    # Only a permission was told more than its folder's words.
    words: Any = parse_line(line.body) if line.kind == "permission" else None
    return digest_of_words(words) if words else line.body_sha256
