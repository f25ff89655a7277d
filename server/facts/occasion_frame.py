"""A frame as a whole: its geometry, its pieces, and what its release was signed on."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.facts.clock import Stamp
from server.facts.equipment import Acceptance
from server.facts.figure import Figure
from server.facts.judged import Verdict


@dataclass(frozen=True, slots=True)
class GeometryFact:
    """One geometry check with the largest deviation read and the limit of the design [mm]."""

    entry: str
    check: str
    at: Stamp
    result: str
    cold_set: bool
    deviation: Figure | None
    limit_mm: float | None
    source: str


@dataclass(frozen=True, slots=True)
class PieceFact:
    """A piece of the frame and its heat: whether the heat is known, certified, and of the metal drawn."""

    piece: str
    member: str
    heat: str | None
    released: bool | None
    metal_drawn: str | None
    metal_found: str | None
    attempt: int = 1


@dataclass(frozen=True, slots=True)
class ReleaseSigned:
    """A release of the frame: when, at which record position, which tablets had not reported, what came later."""

    permission: str
    at_ms: int
    position: int
    unheard: tuple[str, ...]
    unheard_entries: tuple[str, ...]
    late: frozenset[str]
    accept: Mapping[str, Acceptance]


@dataclass(frozen=True, slots=True)
class FrameOccasion:
    """One frame; `late_entries` with the minutes each came after what it tells, `strange` joints no drawing knows."""

    subject: str
    frame: str
    day: int
    accept: Mapping[str, Acceptance]
    geometry: tuple[GeometryFact, ...] = ()
    pieces: tuple[PieceFact, ...] = ()
    release: ReleaseSigned | None = None
    late_entries: tuple[tuple[str, float], ...] = ()
    strange: tuple[str, ...] = ()
    unconfirmed: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SignedOccasion:
    """A signed release with the frame's verdicts as they stand now, and the entries that came in after signing."""

    subject: str
    permission: str
    late: frozenset[str]
    verdicts: tuple[Verdict, ...]
