"""The whole record gone through anew: everything that does not hold is named, and nothing is mended."""

from collections.abc import Collection, Iterable, Iterator, Mapping

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import ChainHead
from server.evidence.checkpoint_walk import CheckpointWalk
from server.evidence.checkpoints import Checkpoint, open_checkpoint
from server.evidence.note_keys import NoteKey
from server.evidence.refusals import NoteRefused
from server.evidence.row_walk import RowWalk
from server.evidence.stored import Discrepancy, StoredRow


def recheck(
    rows: Iterable[StoredRow],
    notes: Iterable[bytes],
    keys: Iterable[NoteKey],
    *,
    origin: str,
    kept_heads: Mapping[ChainSubject, ChainHead] | None = None,
    outside_notes: Iterable[bytes] = (),
    former: Collection[str] = (),
) -> Iterator[Discrepancy]:
    """Yield every discrepancy between the stored entries, their leaves and chains, and what was signed over them.

    `notes` are the record's own signed checkpoints. Whoever holds the key can rewrite those too, so each checkpoint
    that was handed out and comes back belongs into `outside_notes`. `kept_heads` are the heads the writer goes on from,
    `former` the names the record was signed under before.
    """
    known = tuple(keys)
    names = (origin, *former)
    own, refused = _opened(notes, known, names, "checkpoint")
    outside, refused_outside = _opened(outside_notes, known, names, "checkpoint held outside")
    yield from refused + refused_outside
    yield from _two_of_one_size(own)
    walk, checkpoints = RowWalk(), CheckpointWalk(own, outside)
    for row in rows:
        yield from checkpoints.look_before(row, walk)
        yield from walk.take(row)
        yield from checkpoints.look_after(row, walk)
    yield from checkpoints.finish(walk)
    if kept_heads is not None:
        yield from _ends(walk.chains, kept_heads)


def _opened(
    notes: Iterable[bytes], keys: tuple[NoteKey, ...], names: Collection[str], what: str
) -> tuple[list[Checkpoint], list[Discrepancy]]:
    opened, refused = [], []
    for number, note in enumerate(notes, 1):
        try:
            opened.append(_of_this_record(open_checkpoint(note, keys), names))
        except NoteRefused as slip:
            refused.append(Discrepancy("checkpoint refused", None, f"{what} number {number}: {slip}"))
    return opened, refused


def _of_this_record(checkpoint: Checkpoint, names: Collection[str]) -> Checkpoint:
    if checkpoint.origin not in names:
        raise NoteRefused("origin", checkpoint.origin, f"a checkpoint of {' or '.join(names)}")
    return checkpoint


def _two_of_one_size(own: Iterable[Checkpoint]) -> Iterator[Discrepancy]:
    seen: dict[int, Checkpoint] = {}
    for checkpoint in own:
        if seen.setdefault(checkpoint.size, checkpoint) != checkpoint:
            said = f"two checkpoints of size {checkpoint.size} were signed and differ: the record has two histories"
            yield Discrepancy("two histories", checkpoint.size, said)


def _ends(found: Mapping[ChainSubject, ChainHead], kept: Mapping[ChainSubject, ChainHead]) -> Iterator[Discrepancy]:
    for subject in sorted({*found, *kept}):
        ends, goes_on = found.get(subject), kept.get(subject)
        if ends != goes_on:
            said = f"{subject}: its entries end at {_told(ends)}, but the writer goes on from {_told(goes_on)}"
            yield Discrepancy("chain end", None, said)


def _told(chain: ChainHead | None) -> str:
    return f"number {chain.number}, head {chain.head.hex()[:16]}" if chain else "nothing"
