"""Gas through a small hole: the pressure it needs, and whether that pressure can blow a closing bead through."""

from __future__ import annotations

import math

from server.physics.argon import argon_density_kg_per_m3
from server.physics.inputs import between, positive

DISCHARGE = 0.61
WARN_ABOVE_PA = 300.0


def hole_pressure_pa(flow_l_per_min: float, hole_mm: float, holes: int = 1) -> float:
    """Pressure that builds up in a tube when its purge gas has to leave through small holes.

    Equation: Δp = ρ/2 · (F / (n · Cd · A))²,  A = π d² / 4,  Cd = 0.61
    Inputs: flow_l_per_min F [L/min], hole_mm diameter d [mm], holes n of that size side by side [1].
    Result: pressure above the air outside [Pa].
    Example:
        >>> round(hole_pressure_pa(flow_l_per_min=10.0, hole_mm=5.0))
        161

    Range and traps: Sharp-edged holes in a wall thinner than the hole, argon at 20 °C. Half the diameter is sixteen
        times the pressure. Holes one behind the other add their pressures.
    Source: Bernoulli with Cd = 0.61 for a sharp edge, from memory.
    """
    area_m2 = positive("holes", holes) * math.pi * (between("hole_mm", hole_mm, 0.1, 100.0) * 1e-3) ** 2 / 4.0
    speed_m_per_s = between("flow_l_per_min", flow_l_per_min, 0.0, 500.0) / 60e3 / (DISCHARGE * area_m2)
    return 0.5 * argon_density_kg_per_m3() * speed_m_per_s**2


def pool_strength_pa(pool_mm: float) -> float:
    """Pressure that a molten pool of a given width holds back by its surface tension, very roughly.

    Equation: p = 2 γ / (w / 2),  γ = 1.5 N/m
    Inputs: pool_mm, the width w of the pool [mm].
    Result: pressure [Pa].
    Example:
        >>> round(pool_strength_pa(4.0))
        1500

    Range and traps: An order of size, not a limit: a sagging, wide or hot pool holds far less, which is why the warning
        below comes at a fifth of it.
    Source: Laplace pressure of a cap; surface tension of molten titanium about 1.5 N/m, from memory.
    """
    return 4.0 * 1.5 / (between("pool_mm", pool_mm, 0.1, 50.0) * 1e-3)


def blow_through_warning(pressure_pa: float, warn_above_pa: float = WARN_ABOVE_PA) -> str | None:
    """The warning for a closing bead when the gas behind it presses too hard, or None.

    Equation: warn when Δp > warn_above
    Inputs: pressure_pa Δp behind the bead, from hole_pressure_pa [Pa]; warn_above_pa [Pa].
    Result: a sentence, or None.
    Example:
        >>> blow_through_warning(161.0) is None, blow_through_warning(393.0)[:32]
        (True, 'Behind the closing bead the gas ')

    Range and traps: 300 Pa is a fifth of what a 4 mm pool holds by a rough estimate; no published limit is known. The
        qualified procedure comes first.
    Source: our own estimate from pool_strength_pa.
    """
    if between("pressure_pa", pressure_pa, 0.0, 1e7) <= positive("warn_above_pa", warn_above_pa):
        return None
    told = f"Behind the closing bead the gas presses with {pressure_pa:.0f} Pa, above {warn_above_pa:.0f} Pa"
    return f"{told}: it may blow the bead through. Turn the purge down, or open another vent, before closing."
