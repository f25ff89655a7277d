"""A joint in one attempt: its passes, looks, covers, needs, holds, pictures and heat, each resolved."""

from collections.abc import Mapping
from typing import NamedTuple

from server.facts.clock import Stamp
from server.facts.design import Joint
from server.facts.equipment import Acceptance
from server.facts.figure import Figure
from server.facts.limit import Limit
from server.facts.occasion_pass import PassOccasion, TackOccasion
from server.facts.procedure import Procedure


class LookFact(NamedTuple):
    """One look: side, zone, grade or the reason there is none, and whether a pass came after it."""

    entry: str
    at: Stamp
    side: str
    zone: str
    grade: int | None
    answer: str
    reason: str | None
    as_welded: bool
    extent_mm: float | None
    after_last_pass: bool
    quarters: tuple[str, ...]
    photo: str | None = None


class CoverFact(NamedTuple):
    """A quarter of this joint and the tack that hid it: whether it was filled, released and looked at before."""

    quarter: str
    by: str
    tack: Stamp
    tack_entry: str
    finished: bool | None
    finished_entry: str | None
    released: bool | None
    released_entry: str | None
    evidence_before: bool


class ReleaseFact(NamedTuple):
    """A hold point released: by whom, and whether the seam was finished then."""

    entry: str
    at: Stamp
    by: str
    finished: bool | None


class NeedFact(NamedTuple):
    """A step of this joint and one thing the design wants before it; `before` none: the order is not provable."""

    step: str
    first: str
    geometry: bool
    step_at: Stamp
    step_entry: str
    first_at: Stamp | None
    first_entry: str | None
    before: bool | None
    reason: str


class ClosePair(NamedTuple):
    """Two things whose order decides what an attempt rests on, and that lie closer than their clocks can tell."""

    first: str
    first_at: Stamp
    first_entry: str
    second: str
    second_at: Stamp
    second_entry: str


class HoldFact(NamedTuple):
    """A failed check this attempt rests on: the window, the passes in it, and the narrowing that cleared it, if any."""

    check: str
    subject: str
    kind: str
    because: str
    since_ms: int | None
    until_ms: int
    passes: tuple[str, ...]
    tested: Stamp
    recorded_ms: int
    cleared_by: str | None = None
    cleared_reason: str = ""
    covered_while_waiting: str | None = None
    waited_min: float | None = None


class PictureFact(NamedTuple):
    """A picture of this joint, and the earlier one of another joint it is or looks like."""

    entry: str
    sha256: str
    same_as: str | None = None
    like: str | None = None
    bits: int | None = None
    other_entry: str | None = None


class HeatFact(NamedTuple):
    """Heat one quarter has taken over all attempts on the same metal [kJ/mm], and that of the first attempt."""

    quarter: str
    arcs: int
    sum_kj_per_mm: float
    first_kj_per_mm: float
    entries: tuple[str, ...]


class RepairFact(NamedTuple):
    """A repair attempt: which one at this place, who had signed before its first arc, the pause before it."""

    number: int
    signed_roles: tuple[str, ...]
    signed_by: tuple[str, ...]
    pause_min: float | None
    pause_error_min: float
    last_arc_entry: str | None


class JointOccasion(NamedTuple):
    """One attempt at one joint."""

    subject: str
    frame: str
    joint: Joint
    attempt: int
    day: int
    procedure: Procedure | None
    limits: Mapping[str, Limit]
    colours: tuple[Limit, ...]
    accept: Mapping[str, Acceptance]
    passes: tuple[PassOccasion, ...]
    tacks: tuple[TackOccasion, ...]
    looks: tuple[LookFact, ...]
    looks_due: bool
    stage_looked: bool
    last_of_stage: bool
    gap: Figure | None
    gap_due: bool
    fusions: int
    fusion_entries: tuple[str, ...]
    welders: frozenset[str]
    repair: RepairFact | None
    covers: tuple[CoverFact, ...] = ()
    releases: tuple[ReleaseFact, ...] = ()
    needs: tuple[NeedFact, ...] = ()
    close: tuple[ClosePair, ...] | None = None
    """Pairs whose order cannot be told; none where no order is asked."""
    holds: tuple[HoldFact, ...] = ()
    pictures: tuple[PictureFact, ...] = ()
    heat: tuple[HeatFact, ...] = ()
    strikes: tuple[str, ...] = ()
    metals: tuple[str, ...] = ()
    hidden_later: bool = False
    removed: bool = False
