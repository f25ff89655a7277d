"""The entries one after the other: position, bytes against leaf, and each subject's running number and head."""

from collections.abc import Iterator, Mapping

from server.evidence.chain_subject import CHAIN_KINDS, ChainSubject
from server.evidence.chains import ChainHead, chain_of, extended
from server.evidence.frontier import Frontier
from server.evidence.leaves import leaf_hash
from server.evidence.stored import Discrepancy, StoredLink, StoredRow

Chains = Mapping[ChainSubject, ChainHead]


class RowWalk:
    """What the entries so far add up to; after a discrepancy it goes on from what is stored, so each is said once."""

    def __init__(self, frontier: Frontier | None = None, chains: Chains | None = None) -> None:
        """Begin with nothing, or behind what a tree's edge and some chains already stand for."""
        self.frontier = frontier or Frontier()
        self.chains = dict(chains or {})
        self.grown: set[ChainSubject] = set()
        self.first_gap: int | None = None
        self._last = self.frontier.size

    def take(self, row: StoredRow) -> Iterator[Discrepancy]:
        """Check one entry against all before it."""
        if row.position != self._last + 1:
            yield self._misplaced(row)
        self._last = max(self._last, row.position)
        if leaf_hash(row.line) != row.leaf:
            yield Discrepancy("bytes differ", row.position, f"{row}: bytes do not match its leaf")
        for link in row.links:
            yield from self._follow(row, link)
        self.frontier.append(row.leaf)

    def _misplaced(self, row: StoredRow) -> Discrepancy:
        expected, found = self._last + 1, row.position
        if self.first_gap is None:
            self.first_gap = min(expected, found)
        if found < expected:
            said = f"{row}: stands behind position {self._last}, so it is out of order or there twice"
            return Discrepancy("position out of order", found, said)
        missing = f"position {expected} is" if found == expected + 1 else f"positions {expected} to {found - 1} are"
        return Discrepancy("position missing", expected, f"{missing} missing: after {self._last} comes {row}")

    def _follow(self, row: StoredRow, link: StoredLink) -> Iterator[Discrepancy]:
        before = self.chains.get(link.subject)
        if before is None:
            if link.subject.kind not in CHAIN_KINDS:
                said = f"{row}: names {link.subject}; expected a chain of {sorted(CHAIN_KINDS)}"
                yield Discrepancy("chain unknown", row.position, said)
                return
            before = chain_of(link.subject)
        after = extended(before, row.leaf)
        if link.number != after.number:
            said = f"{row}: is number {link.number} of {link.subject}, expected {after.number}"
            yield Discrepancy("chain count", row.position, f"{said}{_left_out(link.number - after.number)}")
        elif link.head != after.head:
            said = f"{row}: head {link.number} of {link.subject} does not follow from its leaf and the head before"
            yield Discrepancy("chain head", row.position, said)
        self.chains[link.subject] = ChainHead(link.number, link.head)
        self.grown.add(link.subject)


def _left_out(missing: int) -> str:
    if missing < 1:
        return "; it or one before it was put in"
    return f"; {missing} {'entry is' if missing == 1 else 'entries are'} left out before it"
