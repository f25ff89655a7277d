"""One hash over the chains of all subjects, so that a seal fixes how many entries each of them had."""

from bisect import bisect_left
from collections.abc import Iterable

from server.evidence.canonical import canonical_line
from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import ChainHead
from server.evidence.leaves import EMPTY_ROOT, leaf_hash, node_hash


def subject_leaf(subject: ChainSubject, chain: ChainHead) -> bytes:
    """Hash one subject's count and head as a leaf of the subjects' tree."""
    kind, name = subject
    line = canonical_line({"kind": kind, "id": name, "count": chain.number, "head": chain.head.hex()})
    return leaf_hash(line)


class SubjectsTree:
    """An RFC 9162 tree over the leaves of all subjects, sorted by kind and id; only what changed is hashed again."""

    def __init__(self, chains: Iterable[tuple[ChainSubject, ChainHead]] = ()) -> None:
        self._subjects: list[ChainSubject] = []
        self._levels: list[list[bytes]] = [[]]
        self._changed: set[int] = set()
        self._moved_from: int | None = None
        for subject, chain in chains:
            self.put(subject, chain)

    def __len__(self) -> int:
        """Count the subjects."""
        return len(self._subjects)

    def put(self, subject: ChainSubject, chain: ChainHead) -> None:
        """Take a subject's chain as it now stands, new or grown."""
        at = bisect_left(self._subjects, subject)
        leaf = subject_leaf(subject, chain)
        if self._subjects[at : at + 1] == [subject]:
            self._levels[0][at] = leaf
        else:
            self._subjects.insert(at, subject)
            self._levels[0].insert(at, leaf)
            self._moved_from = at if self._moved_from is None else min(at, self._moved_from)
        self._changed.add(at)

    def root(self) -> bytes:
        """Give the root over all subjects as they now stand."""
        self._hash_again()
        return self._levels[-1][0] if self._subjects else EMPTY_ROOT

    def inclusion_path(self, subject: ChainSubject) -> tuple[int, tuple[bytes, ...]]:
        """Prove a subject's count and head: its index in the subjects' tree, and the path from its leaf to the root."""
        self._hash_again()
        index = bisect_left(self._subjects, subject)
        if self._subjects[index : index + 1] != [subject]:
            raise ValueError(f"{subject}: has no entry in the record; expected a subject with a chain")
        beside = ((nodes, (index >> level) ^ 1) for level, nodes in enumerate(self._levels))
        return index, tuple(nodes[at] for nodes, at in beside if at < len(nodes))

    def _hash_again(self) -> None:
        moved_from = self._moved_from
        changed = {at for at in self._changed if moved_from is None or at < moved_from}
        level = 0
        while len(self._levels[level]) > 1:
            changed = {at >> 1 for at in changed}
            if level + 1 == len(self._levels):
                self._levels.append([])
            if moved_from is not None:
                moved_from >>= 1
                self._hash_from(level, moved_from)
            self._hash_level(level, changed)
            level += 1
        self._changed, self._moved_from = set(), None

    def _hash_from(self, level: int, first: int) -> None:
        """Hash anew all that lies above a place and behind it: behind an inserted subject each leaf moved one on."""
        moved = self._levels[level][2 * first :]
        hashed = [*map(node_hash, moved[::2], moved[1::2])]
        self._levels[level + 1][first:] = [*hashed, *moved[2 * len(hashed) :]]

    def _hash_level(self, level: int, changed: set[int]) -> None:
        below, above = self._levels[level], self._levels[level + 1]
        for at in changed:
            pair = below[2 * at : 2 * at + 2]
            above[at] = node_hash(*pair) if len(pair) == 2 else pair[0]
