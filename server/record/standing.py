"""Where the record stands once everything is kept: its size, its chains, the edge of its tree, and its last seal."""

from dataclasses import dataclass, field

from sqlalchemy import Connection, func, select, tuple_

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import ChainHead, chain_of
from server.evidence.frontier import Frontier
from server.evidence.subjects_root import SubjectsTree
from server.record.drafts import Draft
from server.record.tables.columns import CHECKPOINT, LINE, LINK

_HASH = 32


@dataclass(slots=True)
class Standing:
    """What the writer goes on from; held in memory, and read anew whenever another process has written."""

    heads: dict[ChainSubject, ChainHead] = field(default_factory=dict)
    frontier: Frontier = field(default_factory=Frontier)
    sealed_size: int = 0
    subjects: SubjectsTree = field(default_factory=SubjectsTree)
    grown: set[ChainSubject] = field(default_factory=set)

    @property
    def size(self) -> int:
        """How many lines there are, which is the position of the last one."""
        return self.frontier.size

    def head(self, subject: ChainSubject) -> ChainHead:
        """Give where a subject's chain ends."""
        return self.heads.get(subject) or chain_of(subject)

    def keep(self, draft: Draft) -> None:
        """Go on from a draft whose transaction was kept."""
        for leaf in draft.leaves:
            self.frontier.append(leaf)
        self.heads.update(draft.heads)
        self.grown.update(draft.heads)

    def subjects_root(self) -> bytes:
        """Give the root over all chains; only those that grew since the last time are hashed again."""
        for subject in self.grown:
            self.subjects.put(subject, self.heads[subject])
        self.grown.clear()
        return self.subjects.root()


def read_standing(connection: Connection) -> Standing:
    """Read where the record stands: the chains' ends, and the tree from the last checkpoint on."""
    heads = read_heads(connection)
    newest = select(CHECKPOINT.size, CHECKPOINT.peaks).order_by(CHECKPOINT.size.desc()).limit(1)
    sealed, peaks = connection.execute(newest).first() or (0, b"")
    frontier = Frontier(sealed, (peaks[at : at + _HASH] for at in range(0, len(peaks), _HASH)))
    for leaf in connection.execute(select(LINE.leaf).where(LINE.position > sealed).order_by(LINE.position)).scalars():
        frontier.append(leaf)
    return Standing(heads, frontier, sealed, grown=set(heads))


def read_heads(connection: Connection) -> dict[ChainSubject, ChainHead]:
    """Read where every subject's chain ends."""
    ends = select(LINK.kind, LINK.id, func.max(LINK.number).label("last")).group_by(LINK.kind, LINK.id).subquery()
    same = tuple_(LINK.kind, LINK.id, LINK.number) == tuple_(ends.c.kind, ends.c.id, ends.c.last)
    found = connection.execute(select(LINK.kind, LINK.id, LINK.number, LINK.head).join(ends, same))
    return {ChainSubject(kind, name): ChainHead(number, head) for kind, name, number, head in found}
