"""What a recording measured of one pass: energy, arc time, means, how sure the energy is, and every doubt in words."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass
from math import hypot

from server.facts.equipment import Instrument
from server.facts.measured import Measured
from server.physics.energy_doubt import arc_energy_doubt, spread_of_bounds
from server.physics.trace_found import ArcSpan, TraceFault
from server.physics.trace_sampling import judge_sampling
from server.work.frame_passes import TracedPass
from server.work.trace_read import SeenTrace

_ADDED = ("arc_on", "mean_current", "volts")
_FAULT_WORDS = {
    TraceFault.NOT_A_NUMBER: "readings that are no number",
    TraceFault.GAP: "gaps in time",
    TraceFault.CLOCK_BACK: "the clock ran back",
    TraceFault.DUPLICATE: "times recorded twice",
    TraceFault.CUT: "the recording broke while the arc was on",
}


@dataclass(frozen=True, slots=True)
class Measurement:
    """Values as they are sealed, the energy's standard uncertainty, and what speaks against the figures.

    An undecided recording has no values: its energy is told in the flags as a range and is no figure to go by.
    """

    values: dict[str, dict[str, str]]
    energy_doubt_j: float | None
    flags: tuple[str, ...]


def measured_of(
    beads: ArcSpan, sample_hz: float, instrument: Instrument, typed: Mapping[str, Measured], keep: Collection[str] = ()
) -> Measurement:
    """Say what the beads measured; quantities in `keep` were recorded with the pass and are not given again."""
    pulse_hz = typed["frequency"].value if "frequency" in typed else None
    sampled = judge_sampling(beads, sample_hz, pulse_hz or 0.0)
    doubt_j = _energy_doubt_j(beads, instrument)
    flags = (*_sampling(sample_hz, pulse_hz, sampled.method), *_faults(beads, doubt_j))
    if beads.undecided:
        return Measurement({}, None, flags)
    found = {
        "arc_energy": (f"{sampled.energy_j:.1f}", "J"),
        "arc_on": (f"{beads.arc_s:.2f}", "s"),
        "mean_current": (f"{beads.mean_amps:.2f}", "A"),
        "volts": (f"{beads.mean_volts:.2f}", "V"),
    }
    values = {
        name: {"value": value, "unit": unit, "how": "counted", "by": instrument.id}
        for name, (value, unit) in found.items()
        if name not in keep
    }
    return Measurement(values, doubt_j, flags)


def measured_for(
    to: TracedPass, seen: SeenTrace, instrument: Instrument, beads: tuple[int, ...]
) -> Measurement:
    """Say what beads of a recording would add to a pass; what the pass tells by itself is left alone."""
    typed = to.entry.values
    keep = [name for name in _ADDED if name in typed]
    return measured_of(seen.beads(beads), seen.found.sample_hz, instrument, typed, keep)


def _energy_doubt_j(beads: ArcSpan, instrument: Instrument) -> float | None:
    """From the doubts on file of volts and amps, and what was missed; none when one of the two is not on file."""
    shares = [_share(instrument, "volts", beads.mean_volts), _share(instrument, "mean_current", beads.mean_amps)]
    volts, amps = shares
    if volts is None or amps is None:
        return None
    missed_j = beads.energy_high_j - beads.energy_j
    missed = spread_of_bounds(missed_j) if missed_j > 0.0 else 0.0
    return hypot(beads.energy_j * arc_energy_doubt(volts, amps), missed)


def _share(instrument: Instrument, quantity: str, reading: float) -> float | None:
    known = next((each for each in instrument.reads if each.quantity == quantity), None)
    if known is None or reading <= 0.0:
        return None
    return min(1.0, hypot(known.fixed / reading, known.share))


def _sampling(sample_hz: float, pulse_hz: float | None, method: str) -> Iterator[str]:
    if pulse_hz is None:
        yield f"sampled at {sample_hz:.4g} Hz; the pass names no pulse frequency, so nobody can tell if that is enough"
    elif method == "instantaneous":
        yield f"instantaneous: sampled at {sample_hz:.4g} Hz"
    else:
        enough = f"{20.0 * pulse_hz:.4g} Hz would do"
        yield f"{method}: sampled at {sample_hz:.4g} Hz, too slow for a pulse of {pulse_hz:.4g} Hz; {enough}"


def _faults(beads: ArcSpan, doubt_j: float | None) -> Iterator[str]:
    yield from (words for fault, words in _FAULT_WORDS.items() if fault & beads.faults)
    if beads.missing_s > 0.0:
        missing = f"{beads.missing_s:.2f} s of arc are missing"
        yield f"{missing}; the energy lies between {beads.energy_j:.0f} and {beads.energy_high_j:.0f} J"
    if beads.undecided:
        yield "undecided: too much is missing, or nobody can say how much, so no energy is taken from it"
    if doubt_j is None:
        yield "how sure the energy is cannot be said: the instrument's doubt of volts or amps is not on file"
