"""Proves from the stored chains and checkpoints how one subject stood under the newest seal."""

from sqlalchemy import Connection, func, select, tuple_

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import ChainHead
from server.evidence.frontier import Frontier
from server.evidence.subject_proof import SubjectProof
from server.evidence.subjects_root import SubjectsTree
from server.record.standing import read_heads
from server.record.tables.columns import CHECKPOINT, LINE, LINK

_HASH = 32


class SealedSubjects:
    """The tree over all subjects as the newest seal fixed it, kept until another seal is made."""

    def __init__(self) -> None:
        """Know of no seal yet."""
        self._at = (0, SubjectsTree(), dict[ChainSubject, ChainHead]())

    def at(self, connection: Connection, size: int) -> tuple[SubjectsTree, dict[ChainSubject, ChainHead]]:
        """Give the tree and the chains under the seal at that position."""
        kept = self._at
        if kept[0] != size:
            heads = _heads_before(connection, size)
            kept = (size, SubjectsTree(heads.items()), heads)
            # Hashed before it is shared: two dossiers may be told at once.
            kept[1].root()
            self._at = kept
        return kept[1:]


def subject_proof(connection: Connection, sealed: SealedSubjects, subject: ChainSubject) -> SubjectProof | None:
    """Give the proof under the newest checkpoint; none where nothing is signed, or nothing of the subject under it."""
    newest = select(CHECKPOINT.size, CHECKPOINT.note).order_by(CHECKPOINT.size.desc()).limit(1)
    found = connection.execute(newest).first()
    if found is None:
        return None
    size, note = found
    tree, heads = sealed.at(connection, size)
    if subject not in heads:
        return None
    index, path = tree.inclusion_path(subject)
    seal = connection.execute(select(LINE.envelope).where(LINE.position == size)).scalar_one()
    return SubjectProof(subject, heads[subject], index, path, seal, _before_the_last(connection, size), note)


def _before_the_last(connection: Connection, size: int) -> tuple[bytes, ...]:
    """The path of a tree's last leaf is what stood complete before it, the smallest first."""
    older = select(CHECKPOINT.size, CHECKPOINT.peaks).where(CHECKPOINT.size < size)
    begun, peaks = connection.execute(older.order_by(CHECKPOINT.size.desc()).limit(1)).first() or (0, b"")
    frontier = Frontier(begun, (peaks[at : at + _HASH] for at in range(0, len(peaks), _HASH)))
    between = select(LINE.leaf).where(LINE.position > begun, LINE.position < size).order_by(LINE.position)
    for leaf in connection.execute(between).scalars():
        frontier.append(leaf)
    return tuple(reversed(frontier.peaks))


def _heads_before(connection: Connection, size: int) -> dict[ChainSubject, ChainHead]:
    """Where every chain ended before a seal: as it ends now, less what came at the seal and after it."""
    heads = read_heads(connection)
    later = select(LINK.kind, LINK.id, func.min(LINK.number) - 1).where(LINK.position >= size)
    ends = [tuple(row) for row in connection.execute(later.group_by(LINK.kind, LINK.id))]
    for kind, name, last in ends:
        if last == 0:
            del heads[ChainSubject(kind, name)]
    asked = select(LINK.kind, LINK.id, LINK.number, LINK.head)
    for kind, name, number, head in connection.execute(asked.where(tuple_(LINK.kind, LINK.id, LINK.number).in_(ends))):
        heads[ChainSubject(kind, name)] = ChainHead(number, head)
    return heads
