"""Where the record stands, and a draft that goes on from there until its transaction is kept or taken back."""

from collections.abc import Mapping
from hashlib import sha256
from operator import attrgetter
from typing import NamedTuple, Protocol

from server.evidence.chain_subject import ChainSubject
from server.evidence.chains import ChainHead, extended
from server.evidence.leaves import leaf_hash
from server.record.envelope import envelope_of
from server.record.lines import NewLine, Placed, StoredLine


class Ground(Protocol):
    """What a draft stands on: another draft or what is already kept."""

    @property
    def size(self) -> int:
        """How many lines there are, which is the position of the last one."""

    def head(self, subject: ChainSubject) -> ChainHead:
        """Give where a subject's chain ends."""


class Link(NamedTuple):
    """A line's place in one subject's chain, as its row."""

    kind: str
    id: str
    number: int
    position: int
    head: bytes


class Drafted(NamedTuple):
    """The rows of one line, ready to be inserted, and where it was placed."""

    placed: Placed
    line: StoredLine
    links: list[Link]


class Draft:
    """Lines placed but not yet kept; it is merged into its ground, or forgotten."""

    def __init__(self, ground: Ground) -> None:
        self._ground = ground
        self._below = ground.size
        self.leaves: list[bytes] = []
        self._heads: dict[ChainSubject, ChainHead] = {}

    @property
    def size(self) -> int:
        """How many lines there are with those of the draft."""
        return self._below + len(self.leaves)

    @property
    def heads(self) -> Mapping[ChainSubject, ChainHead]:
        """The chains that grew in this draft."""
        return self._heads

    def head(self, subject: ChainSubject) -> ChainHead:
        """Give where a subject's chain ends with the lines of the draft."""
        return self._heads.get(subject) or self._ground.head(subject)

    def place(self, line: NewLine) -> Drafted:
        """Give a line its position, its numbers in the chains and its leaf."""
        position = self.size + 1
        body_sha256 = line.body_sha256 or sha256(line.body).digest()
        heads, ground = self._heads, self._ground
        before = {subject: heads.get(subject) or ground.head(subject) for subject in line.subjects}
        envelope = envelope_of(line, position, body_sha256, before)
        leaf = leaf_hash(envelope)
        grown = {subject: extended(head, leaf) for subject, head in before.items()}
        self.leaves.append(leaf)
        heads.update(grown)
        row = StoredLine._make((position, *_told(line), body_sha256, envelope, leaf))
        links = [Link(kind, name, number, position, head) for (kind, name), (number, head) in grown.items()]
        return Drafted(Placed(position, line.id, leaf, line.received_ms), row, links)

    def merge(self, branch: "Draft") -> None:
        """Take over the lines of a draft that stood on this one."""
        self.leaves += branch.leaves
        self._heads.update(branch.heads)


_told = attrgetter(*StoredLine._fields[1:-3])
