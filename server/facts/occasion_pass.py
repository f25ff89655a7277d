"""A pass, and a set of tacks, with every look-up resolved: limits, gas, rod, welder, clock, as they were then."""

from collections.abc import Mapping
from typing import NamedTuple

from server.facts.clock import Stamp
from server.facts.design import Joint
from server.facts.equipment import Acceptance
from server.facts.figure import CardName, Figure
from server.facts.limit import Limit
from server.facts.procedure import Procedure


class GasOn(NamedTuple):
    """The gas on one line at one moment: cylinder, its fill lot, since when, and the beads around that moment."""

    line: str
    cylinder: str | None = None
    fill_lot: str | None = None
    lot_released: bool | None = None
    certificate_ppm: float | None = None
    certificate_dew_c: float | None = None
    certificate_purity_percent: float | None = None
    changed: Stamp | None = None
    change_entry: str | None = None
    bead_due_since: Stamp | None = None
    next_bead: Stamp | None = None
    next_bead_entry: str | None = None
    next_bead_good: bool | None = None
    settled_by: Stamp | None = None
    next_change: Stamp | None = None
    next_change_entry: str | None = None


class RodUsed(NamedTuple):
    """The filler of one pass: what the label says, what the rod ends say, whether its lot and sleeve were fit."""

    sleeve: str
    label_class: str | None = None
    read_class: str | None = None
    read_entry: str | None = None
    rod_mm: float | None = None
    lot: str | None = None
    lot_released: bool | None = None
    was_open: bool | None = None

    @property
    def filler_class(self) -> str | None:
        """What is in the sleeve: the rod ends where they were read, else the label."""
        return self.read_class or self.label_class


class Standing(NamedTuple):
    """How a welder stood on the day of a pass: the qualification that covers it, or why the nearest one does not."""

    qualification: str | None
    valid: bool
    reason: str = ""
    last_valid_day: int | None = None


class PassOccasion(NamedTuple):
    """One run of the arc; `day` is the shop's day as a date ordinal, `limits` those in force for this joint and run."""

    subject: str
    frame: str
    joint: Joint
    attempt: int
    entry: str
    run: str
    quarters: tuple[str, ...]
    ended: Stamp
    started_ms: int | None
    tapped_ms: int
    day: int
    welder: str
    repair: bool
    procedure: Procedure | None
    limits: Mapping[str, Limit]
    in_force: Procedure | None
    shown: CardName | None
    card: str | None
    accept: Mapping[str, Acceptance]
    figures: Mapping[str, Figure]
    purge: GasOn | None
    torch: GasOn | None
    rod: RodUsed | None
    no_filler: bool
    standing: Standing
    first_of_shift: bool
    first_after_change: bool
    first_of_setup: bool
    first_of_joint: bool
    elsewhere: frozenset[str]
    number: int | None = None
    setup: str | None = None
    late_reason: str | None = None
    unconfirmed: bool = False
    oxygen_age_min: float | None = None
    clean_to_arc_h: float | None = None
    clean_entry: str | None = None
    curve: str | None = None
    tungsten_type: str | None = None


class TackOccasion(NamedTuple):
    """One set of tacks on a joint."""

    subject: str
    frame: str
    joint: Joint
    attempt: int
    entry: str
    at: Stamp
    colour: int | None
    removed: bool
    purged: bool
    limits: Mapping[str, Limit]
    accept: Mapping[str, Acceptance]
