"""What is rechecked, as it was found in the store, and what is said of it where it does not hold."""

from typing import Literal, NamedTuple

from server.evidence.chain_subject import ChainSubject

DiscrepancyName = Literal[
    "position missing",
    "position out of order",
    "bytes differ",
    "chain unknown",
    "chain count",
    "chain head",
    "chain end",
    "seal missing",
    "checkpoint missing",
    "seal subjects",
    "seal previous",
    "checkpoint refused",
    "checkpoint root",
    "checkpoint beyond",
    "checkpoint not comparable",
    "two histories",
]


class StoredLink(NamedTuple):
    """An entry's place in one subject's chain: its running number there and the head it led to."""

    subject: ChainSubject
    number: int
    head: bytes


class StoredRow(NamedTuple):
    """One entry as stored; position 1 is the first, so its leaf index is the position less one."""

    position: int
    entry_id: str
    line: bytes
    leaf: bytes
    links: tuple[StoredLink, ...] = ()

    def __str__(self) -> str:
        """Name the entry in a sentence."""
        return f"entry at position {self.position}, id {self.entry_id}"


class Discrepancy(NamedTuple):
    """Something that does not hold: a stable name, the position it was seen at where there is one, and a sentence."""

    name: DiscrepancyName
    position: int | None
    sentence: str

    def __str__(self) -> str:
        """Say it."""
        return self.sentence
