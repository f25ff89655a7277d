"""What has a chain of its own in the record: a frame, a gas line, an instrument, a sleeve, a welder or a register."""

from typing import Literal, NamedTuple, get_args

ChainKind = Literal["frame", "gas line", "instrument", "sleeve", "welder", "register"]
CHAIN_KINDS: frozenset[str] = frozenset(get_args(ChainKind))


class ChainSubject(NamedTuple):
    """One thing whose entries are numbered without a gap; sorted by kind and id in code-point order."""

    kind: ChainKind
    id: str

    def __str__(self) -> str:
        """Write it as a person would: the kind, then the id."""
        return f"{self.kind} {self.id}"
