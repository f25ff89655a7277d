"""Makes a checkpoint: appends the seal, signs size and root, and keeps both before the note leaves the house."""

from collections.abc import Callable
from typing import Any, NamedTuple

from sqlalchemy import Connection, Select, insert, select

from server.evidence.checkpoints import Checkpoint, sign_checkpoint
from server.evidence.note_keys import NoteSigner
from server.evidence.seals import SEALS, Seal, seal_line
from server.record.drafts import Draft
from server.record.envelope import SEAL
from server.record.inserting import insert_lines
from server.record.lines import NewLine
from server.record.standing import Standing
from server.record.tables.columns import CHECKPOINT, CHECKPOINT_TABLE

AFTER_LINES = 1000
_SIGNED = select(CHECKPOINT.size, CHECKPOINT.root, CHECKPOINT.note, CHECKPOINT.made_ms)


class Sealer(NamedTuple):
    """Who signs, and by which clock [ms, UTC]; the record's name is the key's."""

    signer: NoteSigner
    now: Callable[[], int]

    @property
    def origin(self) -> str:
        """The name the record has in its checkpoints."""
        return self.signer.key.name


class SignedCheckpoint(NamedTuple):
    """A checkpoint as it was signed, and the note that may be handed out."""

    checkpoint: Checkpoint
    note: bytes
    made_ms: int


def newest_checkpoint(connection: Connection, origin: str | None = None) -> SignedCheckpoint | None:
    """Give the newest checkpoint; none when nothing was ever signed."""
    return _read(connection, _SIGNED.order_by(CHECKPOINT.size.desc()), origin)


def first_checkpoint(connection: Connection, since_ms: int, least_size: int) -> SignedCheckpoint | None:
    """Give the first checkpoint made at or after a moment [ms, UTC] over so many lines at least; none when none was."""
    fitting = _SIGNED.where(CHECKPOINT.made_ms >= since_ms, CHECKPOINT.size >= least_size)
    return _read(connection, fitting.order_by(CHECKPOINT.size), None)


def _read(connection: Connection, asked: Select[Any], origin: str | None) -> SignedCheckpoint | None:
    found = connection.execute(asked.limit(1)).first()
    if found is None:
        return None
    size, root, note, made_ms = found
    return SignedCheckpoint(Checkpoint(origin or note.decode().partition("\n")[0], size, root), note, made_ms)


def seal(connection: Connection, standing: Standing, sealer: Sealer) -> SignedCheckpoint:
    """Seal all lines so far; where nothing came since the last checkpoint, give that one again."""
    last = newest_checkpoint(connection)
    if last and last.checkpoint.size == standing.size:
        return last
    made_ms = sealer.now()
    previous = last.checkpoint.digest() if last else None
    body = seal_line(Seal(standing.subjects_root(), len(standing.subjects), made_ms, previous))
    draft = Draft(standing)
    name = f"seal {draft.size + 1}"
    line = NewLine(kind=SEAL, id=name, device="record", body=body, received_ms=made_ms, subjects=(SEALS,))
    insert_lines(connection, draft, [line])
    standing.keep(draft)
    checkpoint = Checkpoint(sealer.origin, standing.size, standing.frontier.root())
    note = sign_checkpoint(checkpoint, sealer.signer)
    peaks = b"".join(standing.frontier.peaks)
    row = {"size": checkpoint.size, "root": checkpoint.root, "peaks": peaks, "note": note, "made_ms": made_ms}
    connection.execute(insert(CHECKPOINT_TABLE), row)
    standing.sealed_size = standing.size
    return SignedCheckpoint(checkpoint, note, made_ms)
