"""Goes through a whole record anew, from the file: leaves, chains, checkpoints, columns and guards; changes nothing."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from functools import partial
from typing import NamedTuple

from sqlalchemy import Connection, func, select

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import ChainHead
from server.evidence.note_keys import NoteKey
from server.evidence.recheck import recheck
from server.evidence.stored import StoredRow
from server.record.asking import Remembered
from server.record.details_guards import details_guard_names, details_stand_apart
from server.record.guards import foreign_triggers, missing_guards
from server.record.odd_checkpoints import odd_checkpoints
from server.record.odd_columns import Beside, odd_columns
from server.record.odd_details import odd_details
from server.record.odd_door import odd_door
from server.record.odd_judged import odd_judged
from server.record.odd_pages import odd_pages
from server.record.odd_places import odd_places
from server.record.reads import Reads
from server.record.saying import Say, said_beside, unsaid
from server.record.standing import read_heads
from server.record.stored_rows import in_bytes, line_in_bytes, links_in_bytes, row_of
from server.record.tables.columns import CHECKPOINT

_AT_ONCE = 1000
_BESIDE: Mapping[str, Callable[[Connection], Iterable[str]]] = {
    "the database's own pages": lambda connection: [*odd_pages(connection)],
    "what stands beside the lines": lambda connection: [
        *odd_places(connection), *odd_checkpoints(connection), *odd_details(connection), *odd_door(connection)
    ],
    "what was judged": lambda connection: [*odd_judged(connection)],
}


class Rechecked(NamedTuple):
    """What a recheck found: how much there is, a sentence for everything that does not hold, what is not signed yet."""

    lines: int
    checkpoints: int
    odd: tuple[str, ...]
    after_the_last: int


def recheck_record(
    connection: Connection, keys: Sequence[NoteKey], outside_notes: Iterable[bytes] = (), say: Say = unsaid
) -> Rechecked:
    """Recompute everything; `outside_notes` are checkpoints that were handed out and came back.

    The first key is the one the record signs by now, the others it signed by before.
    """
    reads = Reads(connection, Remembered())
    notes = [in_bytes(note) for note in connection.execute(select(CHECKPOINT.note).order_by(CHECKPOINT.size)).scalars()]
    odd = list(_odd_guards(connection))
    rows = _rows(reads, odd, say)
    heads = said_beside(connection, say, "where the chains end", lambda: read_heads(connection))
    origin, *former = [key.name for key in keys] or [""]
    found = recheck(
        rows, notes, keys, origin=origin, former=former, kept_heads=heads, outside_notes=outside_notes
    )
    told = [str(each) for each in found]
    beside = [slip for each in _BESIDE for slip in _looked(connection, say, each)]
    last = reads.last_position()
    signed = connection.execute(select(func.max(CHECKPOINT.size))).scalar() or 0
    return Rechecked(last, len(notes), (*told, *odd, *beside), max(0, last - signed))


def _odd_guards(connection: Connection) -> Iterator[str]:
    """Leave out the guards of a table that a record of before has not got, such as one in an old backup."""
    of_none = () if details_stand_apart(connection) else details_guard_names(connection.dialect.name)
    for name in missing_guards(connection):
        if name not in of_none:
            yield f"the guard {name} is missing or altered: recorded lines could be changed; migrate puts it back"
    for name in foreign_triggers(connection):
        yield f"the trigger {name} is none of this program's: it can change what is written; take it away"


def _looked(connection: Connection, say: Say, what: str) -> Iterable[str]:
    return said_beside(connection, say, what, partial(_BESIDE[what], connection))


def _rows(reads: Reads, odd: list[str], say: Say) -> Iterator[StoredRow]:
    """Give the rows one by one, noting on the way whose columns differ."""
    ends: dict[ChainSubject, ChainHead] = {}
    last = reads.last_position()
    for first in range(1, last + 1, _AT_ONCE):
        say("lines, chains and checkpoints", first - 1, last)
        links = reads.links_between(first, first + _AT_ONCE - 1)
        for line in reads.lines_between(first, first + _AT_ONCE - 1):
            own = links_in_bytes(links.get(line.position, []))
            whole = line_in_bytes(line)
            row = row_of(whole, own)
            odd += [f"{row}: {slip}" for slip in odd_columns(whole, Beside(own, ends, reads.line))]
            ends.update(own)
            yield row
