"""What people signed, held against what is known: a nonconformity's hold, a use of a concession."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.facts.equipment import Acceptance


@dataclass(frozen=True, slots=True)
class NonconformityOccasion:
    """A nonconformity about a failed check: what the check still reaches, what is held, what was missed."""

    subject: str
    nonconformity: str
    check: str
    reached: tuple[str, ...]
    missed: tuple[str, ...]
    accept: Mapping[str, Acceptance]


@dataclass(frozen=True, slots=True)
class ConcessionOccasion:
    """One use of a concession: which one it is, whether frame, joint, count and day are covered."""

    subject: str
    concession: str
    known: bool
    frame: str
    number: int
    count: int | None
    frame_named: bool
    joint_named: bool
    expired: bool
    decision: str
    accept: Mapping[str, Acceptance]
