"""How sure an arc energy is, from how sure its volts, amps, length and time are."""

from __future__ import annotations

import math

from server.physics.inputs import between, positive


def arc_energy_doubt(volts: float, amps: float, bead_mm: float = 0.0, arc_s: float = 0.0) -> float:
    """Relative standard uncertainty of an arc energy per length from those of what it is made of.

    Equation: u(AE)/AE = √[(u(U)/U)² + (u(I)/I)² + (u(L)/L)² + (u(t)/t)²]
    Inputs: relative standard uncertainties of volts, amps, bead_mm and arc_s [1]; 2 % is 0.02.
    Result: relative standard uncertainty [1].
    Example:
        >>> length = spread_of_bounds(1.0) / 25.0
        >>> round(arc_energy_doubt(volts=0.02, amps=0.025, bead_mm=length, arc_s=0.02), 3)
        0.044

    Range and traps: For doubts that do not share a cause and are below about 20 %. Where volts and amps come from one
        meter with one fault, add them instead. It says nothing about the thermal efficiency.
    Source: JCGM 100:2008 clause 5.1.6, products of powers.
    """
    parts = {"volts": volts, "amps": amps, "bead_mm": bead_mm, "arc_s": arc_s}
    remedy = "Give a share of the reading: 2 % is 0.02."
    return math.hypot(*(between(field, share, 0.0, 1.0, remedy) for field, share in parts.items()))


def spread_of_bounds(half_width: float) -> float:
    """Standard uncertainty of a reading known only to lie within plus or minus a bound.

    Equation: u = a / √3
    Inputs: half_width a [any unit].
    Result: standard uncertainty [the same unit].
    Example:
        >>> round(spread_of_bounds(1.0), 3)
        0.577

    Range and traps: Every value inside the bounds is taken as equally likely. A certificate's own figure is better.
    Source: JCGM 100:2008 clause 4.3.7.
    """
    return positive("half_width", half_width) / math.sqrt(3.0)
