"""Whether the columns kept beside each signed checkpoint still say what its note and its seal say."""

from collections.abc import Iterator
from typing import NamedTuple

from sqlalchemy import Connection, select

from server.evidence.checkpoints import read_unsigned
from server.evidence.frontier import Frontier
from server.evidence.refusals import LineRefused, NoteRefused
from server.evidence.seals import read_seal
from server.facts.moment import show_moment
from server.record.stored_rows import in_bytes
from server.record.tables.columns import CHECKPOINT, CHECKPOINT_TABLE, LINE, LINE_TABLE

_HASH = 32


class _Row(NamedTuple):
    size: int
    root: bytes
    peaks: bytes
    note: bytes
    made_ms: int
    seal: bytes


def odd_checkpoints(connection: Connection) -> Iterator[str]:
    """Name each checkpoint of which a column was altered, with what stands there and what was signed."""
    columns = (*(CHECKPOINT[name] for name in _Row._fields[:-1]), LINE.envelope)
    with_seals = CHECKPOINT_TABLE.outerjoin(LINE_TABLE, LINE.position == CHECKPOINT.size)
    asked = select(*columns).select_from(with_seals).order_by(CHECKPOINT.size)
    for size, root, peaks, note, made_ms, seal in connection.execute(asked):
        row = _Row(size, in_bytes(root), in_bytes(peaks), in_bytes(note), made_ms, in_bytes(seal or b""))
        yield from (f"the checkpoint kept at size {size}: {slip}" for slip in _slips(row))


def _slips(row: _Row) -> Iterator[str]:
    try:
        signed = read_unsigned(row.note)
    except NoteRefused:
        # A note that cannot be read is named where its signature is looked at.
        return
    if signed.size != row.size:
        yield f"its note was signed over {signed.size} lines; it stands at another's place"
    if signed.root != row.root:
        yield f"its root is {row.root.hex()[:16]}..., signed is {signed.root.hex()[:16]}..."
    if not _lead_to(row):
        yield "its peaks, from which the tree goes on, do not lead to the root that was signed"
    try:
        sealed_ms = read_seal(row.seal).sealed_ms
    except LineRefused:
        # That there is no seal is named where the lines are gone through.
        return
    if sealed_ms != row.made_ms:
        yield f"it was made at {_shown(row.made_ms)}, its seal says {show_moment(sealed_ms)}"


def _lead_to(row: _Row) -> bool:
    try:
        peaks = (row.peaks[at : at + _HASH] for at in range(0, len(row.peaks), _HASH))
        return Frontier(row.size, peaks).root() == row.root
    except ValueError:
        return False


def _shown(moment_ms: object) -> str:
    return show_moment(moment_ms) if isinstance(moment_ms, int) else repr(moment_ms)
