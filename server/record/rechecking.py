"""Goes through a whole record anew, from the file: leaves, chains, checkpoints, columns and guards; changes nothing."""

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from sqlalchemy import Connection, select

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import ChainHead
from server.evidence.note_keys import NoteKey
from server.evidence.recheck import recheck
from server.evidence.stored import StoredLink, StoredRow
from server.record.asking import Remembered
from server.record.guards import missing_guards
from server.record.lines import StoredLine
from server.record.odd_columns import Links, odd_columns
from server.record.reads import Reads
from server.record.standing import read_heads
from server.record.tables.columns import CHECKPOINT

_AT_ONCE = 1000


class Rechecked(NamedTuple):
    """What a recheck found: how much there is, and a sentence for everything that does not hold."""

    lines: int
    checkpoints: int
    odd: tuple[str, ...]


def recheck_record(
    connection: Connection, keys: Iterable[NoteKey], origin: str, outside_notes: Iterable[bytes] = ()
) -> Rechecked:
    """Recompute everything; `outside_notes` are checkpoints that were handed out and came back."""
    reads = Reads(connection, Remembered())
    notes = [_bytes(note) for note in connection.execute(select(CHECKPOINT.note).order_by(CHECKPOINT.size)).scalars()]
    odd = [f"the guard {name} is missing: recorded lines could be changed" for name in missing_guards(connection)]
    rows = _rows(reads, odd)
    heads = read_heads(connection)
    found = recheck(rows, notes, keys, origin=origin, kept_heads=heads, outside_notes=outside_notes)
    told = [str(each) for each in found]
    return Rechecked(reads.last_position(), len(notes), (*told, *odd))


def _rows(reads: Reads, odd: list[str]) -> Iterator[StoredRow]:
    """Give the rows one by one, noting on the way whose columns differ."""
    ends: dict[ChainSubject, ChainHead] = {}
    for first in range(1, reads.last_position() + 1, _AT_ONCE):
        links = reads.links_between(first, first + _AT_ONCE - 1)
        for line in reads.lines_between(first, first + _AT_ONCE - 1):
            stored = links.get(line.position, [])
            own = [(subject, ChainHead(place.number, _bytes(place.head))) for subject, place in stored]
            in_bytes = _in_bytes(line)
            row = _row(in_bytes, own)
            odd += [f"{row}: {slip}" for slip in odd_columns(in_bytes, own, ends)]
            ends.update(own)
            yield row


def _row(line: StoredLine, links: Links) -> StoredRow:
    placed = tuple(StoredLink(subject, place.number, place.head) for subject, place in links)
    return StoredRow(line.position, line.id, line.envelope, line.leaf, placed)


def _in_bytes(line: StoredLine) -> StoredLine:
    return line._replace(
        body=_bytes(line.body),
        body_sha256=_bytes(line.body_sha256),
        envelope=_bytes(line.envelope),
        leaf=_bytes(line.leaf),
    )


def _bytes(stored: object) -> bytes:
    # SQLite keeps whatever it is given: somebody who altered bytes may have left a text or a number in their place.
    return stored if isinstance(stored, bytes) else str(stored).encode()
