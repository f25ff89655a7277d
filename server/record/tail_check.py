"""Looks at the end of a record before it goes on: the newest checkpoint and every line behind it."""

from collections.abc import Iterator

from sqlalchemy import Connection, select, tuple_

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import ChainHead
from server.evidence.frontier import Frontier
from server.evidence.row_walk import RowWalk
from server.record.asking import Remembered
from server.record.odd_columns import Beside, odd_columns
from server.record.odd_places import lines_before_the_first
from server.record.reading_lines import LineReads
from server.record.stored_rows import in_bytes, line_in_bytes, links_in_bytes, row_of
from server.record.tables.columns import CHECKPOINT, LINK

_HASH = 32


def odd_tail(connection: Connection) -> list[str]:
    """Say what does not hold at the end; the whole record is for check-record, which takes as long as it is."""
    newest = select(CHECKPOINT.size, CHECKPOINT.root, CHECKPOINT.peaks).order_by(CHECKPOINT.size.desc()).limit(1)
    size, root, peaks = connection.execute(newest).first() or (0, None, b"")
    peaks = in_bytes(peaks)
    try:
        edge = Frontier(size, (peaks[at : at + _HASH] for at in range(0, len(peaks), _HASH)))
    except ValueError as slip:
        return [f"the checkpoint over {size} lines: {slip}"]
    if root is not None and edge.root() != root:
        return [f"the checkpoint over {size} lines: its tree gives another root than was signed"]
    return [*lines_before_the_first(connection), *_odd_lines(connection, edge)]


def _odd_lines(connection: Connection, edge: Frontier) -> Iterator[str]:
    reads = LineReads(connection, Remembered())
    first, last = edge.size + 1, reads.last_position()
    if last < edge.size:
        yield f"it ends at position {last}, but a checkpoint was signed over {edge.size} lines"
    links = reads.links_between(first, last)
    ends = _ends_before(connection, links)
    walk = RowWalk(edge, ends)
    for line in reads.lines_between(first, last):
        own, whole = links_in_bytes(links.get(line.position, [])), line_in_bytes(line)
        row = row_of(whole, own)
        yield from (f"{row}: {slip}" for slip in odd_columns(whole, Beside(own, ends, reads.line)))
        yield from map(str, walk.take(row))
        ends.update(own)


def _ends_before(
    connection: Connection, links: dict[int, list[tuple[ChainSubject, ChainHead]]]
) -> dict[ChainSubject, ChainHead]:
    """Give where the chains stood just before the first of these links each."""
    firsts: dict[ChainSubject, int] = {}
    for placed in links.values():
        for subject, place in placed:
            firsts.setdefault(subject, place.number)
    before = [(*subject, number - 1) for subject, number in firsts.items() if number > 1]
    found = select(LINK.kind, LINK.id, LINK.number, LINK.head)
    asked = found.where(tuple_(LINK.kind, LINK.id, LINK.number).in_(before))
    rows = connection.execute(asked) if before else ()
    return {ChainSubject(kind, name): ChainHead(number, in_bytes(head)) for kind, name, number, head in rows}
