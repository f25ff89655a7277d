"""Arc energy of a weld per millimetre, before any thermal efficiency."""

from __future__ import annotations

from server.physics.inputs import between, positive

_TACK = "A tack or a stop has no travel: record its joules and its arc time instead."


def arc_energy_j_per_mm(volts: float, amps: float, travel_mm_per_min: float) -> float:
    """Arc energy per length from the mean volts, mean amps and travel speed of a steady arc.

    Equation: AE = 60 · U · I / v
    Inputs: volts U [V], amps I [A], travel_mm_per_min v [mm/min].
    Result: arc energy [J/mm]; divide by 1000 for kJ/mm.
    Example:
        >>> arc_energy_j_per_mm(volts=10.0, amps=60.0, travel_mm_per_min=90.0)
        400.0

    Range and traps: Only for an arc without pulsing. Mean volts times mean amps of a pulsed arc read 5 to 23 % low;
        use pulse_power_w or a trace. American codes call this figure heat input; here that name is kept for
        the figure that holds the thermal efficiency. Measure the volts close to the arc.
    Source: ISO/TR 18491:2015 method A; ASME IX QW-409.1(a), as set out by Melfi, Welding Journal, June 2010.
    """
    return _power_w(volts, amps) * 60.0 / positive("travel_mm_per_min", travel_mm_per_min, _TACK)


def arc_energy_of_bead_j_per_mm(energy_j: float, bead_mm: float) -> float:
    """Arc energy per length from the joules measured between arc-on and arc-off and the length of the bead.

    Equation: AE = E / L
    Inputs: energy_j E [J], bead_mm L [mm].
    Result: arc energy [J/mm].
    Example:
        >>> round(arc_energy_of_bead_j_per_mm(energy_j=18_400.0, bead_mm=60.0), 1)
        306.7

    Range and traps: The energy must be the sum of the products of volts and amps taken together, such as a trace gives.
        A tack has no length worth dividing by: keep its joules.
    Source: ISO/TR 18491:2015 method B; ASME IX QW-409.1(c).
    """
    return between("energy_j", energy_j, 0.0, 1e9) / positive("bead_mm", bead_mm, _TACK)


def _power_w(volts: float, amps: float) -> float:
    return between("volts", volts, 0.0, 200.0) * between("amps", amps, 0.0, 1000.0)
