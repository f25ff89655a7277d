"""Loads a shop folder through the verbs: registers first, then papers and deliveries in the order they came."""

from collections import deque
from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Future
from itertools import groupby, islice
from typing import Any, NamedTuple

from server.evidence.canonical import parse_line
from server.facts.delivery import Delivery
from server.record.book_of_lines import Record
from server.record.lines import StoredLine
from server.record.reads import Reads
from server.record.register_lines import register_line
from server.record.written import Written
from server.work.folder_line import FolderLine, digest_of_words
from server.work.sent_delivery import from_folder
from server.work.shop_folder import ShopFolder, Told
from server.work.take_deliveries import take_deliveries

FOLDER = "IMPORT"
_AT_ONCE = 400
_IN_FLIGHT = 8
_READ_AT_ONCE = 5000
Seen = set[tuple[str, str, bytes]]


class Loaded(NamedTuple):
    """What a load did: the lines of the folder, and how many lines the record grew by."""

    told: int
    added: int


def load_folder(
    record: Record, folder: ShopFolder, now_ms: int, progress: Callable[[int, int], None] | None = None
) -> Loaded:
    """Tell the record everything the folder tells; what it knows already changes nothing."""
    with record.reads() as reads:
        before = reads.last_position()
        seen = _told_before(reads)
    told = ((len(run), _tell(record, run, seen, now_ms)) for run in _runs(folder.in_order()))
    done = 0
    for count in _waited_for(told):
        done += count
        if progress:
            progress(done, folder.lines)
    with record.reads() as reads:
        return Loaded(done, sum(1 for _ in _told_lines(reads, before)))


def _waited_for(told: Iterator[tuple[int, "Future[Any]"]]) -> Iterator[int]:
    """Let a few runs wait together, so that the writer keeps several at once; give how long each was once kept."""
    waiting: deque[tuple[int, Future[Any]]] = deque()
    for each in told:
        waiting.append(each)
        if len(waiting) > _IN_FLIGHT:
            yield _kept(*waiting.popleft())
    while waiting:
        yield _kept(*waiting.popleft())


def _kept(count: int, future: "Future[Any]") -> int:
    future.result()
    return count


def _runs(told: Iterable[Told]) -> Iterator[list[Told]]:
    """Give stretches of the same sort, none too long, in their order."""
    for _, run in groupby(told, key=lambda item: isinstance(item, FolderLine)):
        while part := list(islice(run, _AT_ONCE)):
            yield part


def _tell(record: Record, run: Sequence[Told], seen: Seen, now_ms: int) -> "Future[Any]":
    lines = [item for item in run if isinstance(item, FolderLine)]
    if lines:
        new = [line for line in lines if _is_new(line, seen)]
        return record.write(lambda reads: _written(reads, new, now_ms))
    return take_deliveries(record, [from_folder(item, now_ms) for item in run if isinstance(item, Delivery)])


def _is_new(line: FolderLine, seen: Seen) -> bool:
    key = (line.noun.kind, line.noun.id, line.digest)
    known = key in seen
    seen.add(key)
    return not known


def _written(reads: Reads, lines: Sequence[FolderLine], now_ms: int) -> Written[int]:
    first = reads.last_position()
    told = [
        register_line(
            line.noun,
            FOLDER,
            now_ms if line.received_ms is None else line.received_ms,
            body=line.body_at(first + number),
        )
        for number, line in enumerate(lines)
    ]
    return Written(len, told)


def _told_before(reads: Reads) -> Seen:
    """Read which register lines the record was told already, each by the digest of the words it was told in."""
    return {(line.kind, line.id, _digest(line)) for line in _told_lines(reads, 0) if line.kind != "entry"}


def _told_lines(reads: Reads, after: int) -> Iterator[StoredLine]:
    """Give the lines after a position, without the record's own seals."""
    for first in range(after + 1, reads.last_position() + 1, _READ_AT_ONCE):
        yield from (line for line in reads.lines_between(first, first + _READ_AT_ONCE - 1) if line.kind != "seal")


def _digest(line: StoredLine) -> bytes:
    # Only a permission was told more than its folder's words.
    words: Any = parse_line(line.body) if line.kind == "permission" else None
    return digest_of_words(words) if words else line.body_sha256
