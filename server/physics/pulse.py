"""The current of a rectangular pulse: its mean, its RMS, and the base current that gives a wanted mean."""

from __future__ import annotations

import math

from server.physics.errors import UnusableInput
from server.physics.inputs import between


def pulse_mean(peak: float, base: float, duty: float) -> float:
    """Mean of a quantity that switches between a peak and a base value.

    Equation: m = D · p + (1 − D) · b
    Inputs: peak p and base b [A, or V], duty D = pulse time over period [1].
    Result: mean [the same unit].
    Example:
        >>> round(pulse_mean(peak=80.0, base=20.0, duty=0.4), 1)
        44.0

    Range and traps: Rectangular pulses only; slopes between the levels make the true mean differ. 40 % on-time is 0.4.
    Source: TIG power-source operating manuals, average-value pulsing; arithmetic.
    """
    share = _duty(duty)
    return share * between("peak", peak, 0.0, 1000.0) + (1.0 - share) * between("base", base, 0.0, 1000.0)


def pulse_rms(peak: float, base: float, duty: float) -> float:
    """Root mean square of a quantity that switches between a peak and a base value.

    Equation: r = √[D · p² + (1 − D) · b²]
    Inputs: peak p and base b [A, or V], duty D [1].
    Result: root mean square [the same unit].
    Example:
        >>> round(pulse_rms(peak=80.0, base=20.0, duty=0.4), 1)
        52.9

    Range and traps: RMS volts times RMS amps is not the arc's power: it reads 7 to 29 % high on common pulse settings.
    Source: arithmetic; warning after Melfi, Welding Journal, June 2010.
    """
    share = _duty(duty)
    high, low = between("peak", peak, 0.0, 1000.0), between("base", base, 0.0, 1000.0)
    return math.sqrt(share * high**2 + (1.0 - share) * low**2)


def pulse_base_a(mean_a: float, peak_a: float, duty: float) -> float:
    """Base current that, with a given peak and on-time, makes a given mean current.

    Equation: b = (m − D · p) / (1 − D)
    Inputs: mean_a m and peak_a p [A], duty D [1].
    Result: base current [A].
    Example:
        >>> round(pulse_base_a(mean_a=100.0, peak_a=170.0, duty=0.3), 1)
        70.0

    Range and traps: A peak and an on-time too large for the mean would need a current below zero, which is refused.
    Source: TIG power-source operating manuals, average-value pulsing.
    """
    share = between("duty", duty, 0.0, 0.99, "Write 40 % as 0.4; a pulse has a pause.")
    base_a = (between("mean_a", mean_a, 0.0, 1000.0) - share * between("peak_a", peak_a, 0.0, 1000.0)) / (1.0 - share)
    if base_a < 0.0:
        remedy = "Lower the peak or the on-time, or raise the mean."
        raise UnusableInput("mean_a", mean_a, f"at least {share * peak_a:g} A, the share of the peak alone", remedy)
    return base_a


def _duty(duty: float) -> float:
    return between("duty", duty, 0.0, 1.0, "Write 40 % as 0.4.")
