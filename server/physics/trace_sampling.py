"""Whether a trace was sampled fast enough for its pulse, and what is known of its energy when it was not."""

from __future__ import annotations

from dataclasses import dataclass

from server.physics.inputs import between, positive
from server.physics.trace_found import ArcSpan

SAMPLES_PER_PULSE = 20.0


@dataclass(frozen=True, slots=True)
class SampledEnergy:
    """An arc energy with the way it came about: `instantaneous`, `averaged` or `averaged, corrected`."""

    energy_j: float
    method: str


def judge_sampling(bead: ArcSpan, sample_hz: float, pulse_hz: float, shortfall_w: float | None = None) -> SampledEnergy:
    """The energy of a bead with the word for how far its sampling can be trusted.

    Equation: instantaneous when fs ≥ 20 · fp; else E + ΔP · T when the shortfall ΔP of the pulse is known.
    Inputs: bead, found by trace_energy; sample_hz fs and pulse_hz fp [Hz], 0 for an arc without pulsing;
        shortfall_w ΔP [W], from averaging_shortfall_w, None when peak, base, on-time or slope are not known.
    Result: energy [J] and its method.
    Example:
        >>> from server.physics.trace_energy import trace_energy
        >>> slow = trace_energy([0.0, 1.0, 2.0, 3.0, 4.0], [66.0] * 5, [12.64] * 5)
        >>> judge_sampling(slow.whole, slow.sample_hz, pulse_hz=2.0, shortfall_w=77.76).method
        'averaged, corrected'

    Range and traps: The correction is for a logger that averages volts and amps apart before it stores them. One that
        takes slow snapshots has no bias to mend but scatters, 7 % for one a second at 2 Hz, and far more when the
        pulse keeps step with its clock. Time missing from the bead is not corrected for.
    Source: sampling fast against the waveform, Melfi, Welding Journal, June 2010; 20 samples a pulse is our own choice.
    """
    rate_hz = positive("sample_hz", sample_hz)
    if rate_hz >= SAMPLES_PER_PULSE * between("pulse_hz", pulse_hz, 0.0, 100_000.0):
        return SampledEnergy(bead.energy_j, "instantaneous")
    if shortfall_w is None:
        return SampledEnergy(bead.energy_j, "averaged")
    added_w = between("shortfall_w", shortfall_w, 0.0, 100_000.0)
    return SampledEnergy(bead.energy_j + added_w * bead.arc_s, "averaged, corrected")
