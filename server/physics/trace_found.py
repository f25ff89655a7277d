"""What a sampled trace of an arc was found to hold: beads, their energy, and every doubt about it."""

from __future__ import annotations

from dataclasses import dataclass
from enum import IntFlag

MOST_MISSING = 0.02


class TraceFault(IntFlag):
    """What is wrong with a trace; a bead carries those that touch it. CUT: the recording broke while the arc was on."""

    NONE = 0
    NOT_A_NUMBER = 1
    GAP = 2
    CLOCK_BACK = 4
    DUPLICATE = 8
    CUT = 16
    NO_ARC = 32


COUNTED = (TraceFault.NOT_A_NUMBER, TraceFault.GAP, TraceFault.CLOCK_BACK, TraceFault.DUPLICATE)
_UNBOUNDED = TraceFault.CLOCK_BACK | TraceFault.CUT | TraceFault.NO_ARC


@dataclass(frozen=True, slots=True)
class ArcSpan:
    """Arc time and energy between two moments, from what was seen alone; the means are over the arc time seen."""

    start_s: float
    end_s: float
    energy_j: float
    arc_s: float
    missing_s: float
    mean_amps: float
    mean_volts: float
    peak_w: float
    faults: TraceFault

    @property
    def energy_high_j(self) -> float:
        """The energy if the arc had burned at its highest power seen through all the time that was missed."""
        return self.energy_j + self.missing_s * self.peak_w

    @property
    def mean_power_w(self) -> float:
        """Mean power over the arc time seen [W], 0 when no arc was seen."""
        return self.energy_j / self.arc_s if self.arc_s else 0.0

    @property
    def undecided(self) -> bool:
        """Too much was missed, or nobody can say how much, for the energy to pass a limit."""
        return bool(self.faults & _UNBOUNDED) or self.missing_s > MOST_MISSING * (self.arc_s + self.missing_s)


@dataclass(frozen=True, slots=True)
class TraceFound:
    """All beads of a trace, their sum, the rate it was sampled at, and how many samples or steps each fault took."""

    whole: ArcSpan
    beads: tuple[ArcSpan, ...]
    sample_hz: float
    counts: dict[TraceFault, int]
