"""The power of a pulsed arc, and what is lost when volts and amps are averaged apart."""

from __future__ import annotations

from server.physics.inputs import between
from server.physics.pulse import pulse_mean


def pulse_power_w(peak_v: float, peak_a: float, base_v: float, base_a: float, duty: float) -> float:
    """Mean power of a rectangular pulse from the volts and amps of its peak and its base.

    Equation: P = D · Up · Ip + (1 − D) · Ub · Ib
    Inputs: peak_v Up and base_v Ub [V], peak_a Ip and base_a Ib [A], duty D [1].
    Result: mean power [W].
    Example:
        >>> round(pulse_power_w(peak_v=11.0, peak_a=80.0, base_v=9.0, base_a=20.0, duty=0.4), 1)
        460.0

    Range and traps: Volts must be those of each level, not the meter's mean. Slopes between the levels are left out.
    Source: ISO/TR 18491:2015 method C for a rectangular wave; arithmetic.
    """
    peak_w = between("peak_v", peak_v, 0.0, 200.0) * between("peak_a", peak_a, 0.0, 1000.0)
    base_w = between("base_v", base_v, 0.0, 200.0) * between("base_a", base_a, 0.0, 1000.0)
    share = between("duty", duty, 0.0, 1.0, "Write 40 % as 0.4.")
    return share * peak_w + (1.0 - share) * base_w


def averaging_shortfall_w(peak_a: float, base_a: float, duty: float, slope_v_per_a: float) -> float:
    """Power by which mean volts times mean amps falls short of the true mean power of a pulsed arc.

    Equation: ΔP = r · D · (1 − D) · (Ip − Ib)²
    Inputs: peak_a Ip and base_a Ib [A], duty D [1], slope_v_per_a r = (Up − Ub) / (Ip − Ib) [V/A].
    Result: power to add to the product of the means [W].
    Example:
        >>> round(averaging_shortfall_w(peak_a=120.0, base_a=30.0, duty=0.4, slope_v_per_a=0.04), 2)
        77.76

    Range and traps: Exact for a rectangular pulse on a straight arc line U = U0 + r·I. The usual r = 0.04 V/A is the
        line power sources are tested on; a real arc's r is smaller, so fit it from a fast trace. It belongs to a
        logger that averages volts and amps apart; slow snapshots scatter instead and are not mended by it.
    Source: identity; r = 0.04 V/A from memory of IEC 60974-1.
    """
    share = between("duty", duty, 0.0, 1.0, "Write 40 % as 0.4.")
    step_a = between("peak_a", peak_a, 0.0, 1000.0) - between("base_a", base_a, 0.0, 1000.0)
    return between("slope_v_per_a", slope_v_per_a, -1.0, 1.0) * share * (1.0 - share) * step_a**2


def pulse_means_product_w(peak_v: float, peak_a: float, base_v: float, base_a: float, duty: float) -> float:
    """Product of a pulsed arc's mean volts and mean amps, as a slow meter would show it.

    Equation: P' = [D · Up + (1 − D) · Ub] · [D · Ip + (1 − D) · Ib]
    Inputs: peak_v Up and base_v Ub [V], peak_a Ip and base_a Ib [A], duty D [1].
    Result: product of the means [W].
    Example:
        >>> round(pulse_means_product_w(peak_v=11.0, peak_a=80.0, base_v=9.0, base_a=20.0, duty=0.4), 1)
        431.2

    Range and traps: Not the arc's power: it is low by averaging_shortfall_w. Kept to show what a meter hides.
    Source: arithmetic; warning after Melfi, Welding Journal, June 2010.
    """
    return pulse_mean(peak_v, base_v, duty) * pulse_mean(peak_a, base_a, duty)
