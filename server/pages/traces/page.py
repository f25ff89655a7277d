"""What the trace screens show: which pass a recording is for, and the recording itself, bead by bead."""

from collections.abc import Mapping
from dataclasses import dataclass

from server.charts.curve_sheet import CurveSheet
from server.facts.entry import QUARTERS
from server.facts.equipment import Instrument
from server.facts.orders import Packet
from server.facts.supplies import Trace
from server.work.frame_passes import TracedPass
from server.work.offered_beads import BeadOffered
from server.work.trace_measured import Measurement

RUNS = ("root", "fill", "wash", "repair")
_HOURS = ("12 o'clock", "3 o'clock", "6 o'clock", "9 o'clock")
QUARTER_CHOICES = (("all", "all round"), *zip(QUARTERS, _HOURS, strict=True))


@dataclass(frozen=True, slots=True)
class ChoosePage:
    """The frames in work, the passes of the one chosen, the instruments that record, and what went wrong last time."""

    frames: tuple[Packet, ...]
    frame: str
    passes: tuple[TracedPass, ...]
    instruments: tuple[Instrument, ...]
    filled: Mapping[str, str]
    problems: tuple[str, ...] = ()

    @property
    def instrument(self) -> str:
        """The instrument to show chosen: the one filled in, else the power source of the newest pass."""
        machine = self.passes[0].entry.machine if self.passes else None
        return self.filled.get("instrument") or machine or ""


@dataclass(frozen=True, slots=True)
class BeadLine:
    """One bead of the recording as the table shows it; per length only where the seam's length is known."""

    number: int
    start_s: float
    arc_s: float
    mean_amps: float
    mean_volts: float
    energy_j: float
    energy_high_j: float
    undecided: bool


@dataclass(frozen=True, slots=True)
class LookPage:
    """One recording beside its pass: pictures, beads, what it would add or has added, and the beads it offers."""

    sha256: str
    to: TracedPass
    instrument: Instrument
    read_by: str
    sample_hz: float
    pictures: tuple[CurveSheet, ...]
    beads: tuple[BeadLine, ...]
    measured: Measurement
    attached: Trace | None
    offered: tuple[BeadOffered, ...]
    hidden: tuple[tuple[str, str], ...]
    seam_mm: float | None
    done: str
    problems: tuple[str, ...] = ()

    @property
    def seam_shown(self) -> str:
        """The length of seam the pass went over, in words."""
        return "not known" if self.seam_mm is None else f"{self.seam_mm:.0f} mm"

    @property
    def runs(self) -> tuple[str, ...]:
        """The runs a bead may be logged as."""
        return RUNS

    @property
    def quarters(self) -> tuple[tuple[str, str], ...]:
        """The quarters a bead may be logged over."""
        return QUARTER_CHOICES

    @property
    def all_logged(self) -> bool:
        """Tell whether every bead on offer is a pass already."""
        return all(offer.logged for offer in self.offered)

    def per_mm(self, measured: Measurement) -> float | None:
        """The measured energy over the length of seam [J/mm], none when one of the two is not known."""
        energy = measured.values.get("arc_energy")
        return float(energy["value"]) / self.seam_mm if energy and self.seam_mm else None
