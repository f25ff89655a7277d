"""Temperature of a thin wall or tube while beads are laid and after: each bead is a source of heat that travels."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from server.physics.cooling_metal import TubeMetal

if TYPE_CHECKING:
    from server.physics.arrays import Floats

_NODES = 120
# Beyond this many spreads of heat an image of the bead adds less than a millionth.
_FAR = 8.0
# A bead younger than this has heated nothing that can be told from nothing.
_SHORTEST_S = 1e-6


@dataclass(frozen=True, slots=True)
class LaidBead:
    """A bead along the seam from one place to another [mm], begun at a time [s], at a travel [mm/s] and heat [J/mm]."""

    start_mm: float
    end_mm: float
    begin_s: float
    travel_mm_per_s: float
    heat_input_j_per_mm: float

    @property
    def end_s(self) -> float:
        """When the arc of the bead goes out."""
        return self.begin_s + abs(self.end_mm - self.start_mm) / self.travel_mm_per_s


def rise_k(
    beads: Sequence[LaidBead],
    places_mm: Floats,
    at_s: float,
    wall_mm: float,
    around_mm: float | None,
    metal: TubeMetal,
) -> Floats:
    """How far places on the seam are above the temperature they started from, at a moment, from all beads so far.

    Equation: θ = Σ Q / (4 π k d) · ∫ Σm exp[−(s − s'(t − τ) + m C)² / (4 a τ)] · exp[−H τ / (ρc d)] dτ / τ
    Inputs: beads; places_mm s along the seam [mm]; at_s t [s]; wall_mm d [mm]; around_mm C, the way round a tube [mm],
        None for a flat wall; metal k, ρc, H with a = k / ρc.
    Result: rise of temperature [K], for each place.
    Example:
        >>> import numpy as np
        >>> lap = LaidBead(0.0, 106.81, 0.0, travel_mm_per_s=2.0, heat_input_j_per_mm=100.0)
        >>> metal = TubeMetal(15.0, 2.9e6, gives_off_w_per_m2_k=35.0)
        >>> rise_k([lap], np.array([50.0]), 50.0, wall_mm=0.9, around_mm=106.81, metal=metal).round()
        array([660.])

    Range and traps: On the seam itself, in a wall alike on both sides; no molten pool, no latent heat, far from tube
        ends. At the arc itself the figure grows without bound: ask a millimetre or more away from it.
    Source: Green's function of an unrolled tube; held to 1 % by an independent finite-difference solver in the tests.
    """
    import numpy as np

    rise = np.zeros(places_mm.size)
    for bead in beads:
        if at_s - bead.begin_s > _SHORTEST_S:
            rise += _rise_of(bead, places_mm, at_s, wall_mm * 1e-3, around_mm, metal)
    return rise


def _rise_of(
    bead: LaidBead, places_mm: Floats, at_s: float, wall_m: float, around_mm: float | None, metal: TubeMetal
) -> Floats:
    import numpy as np

    # Evenly spread in the root of the age: there the integrand has no peak at the arc.
    edges = np.linspace(math.sqrt(max(0.0, at_s - bead.end_s)), math.sqrt(at_s - bead.begin_s), _NODES + 1)
    root = 0.5 * (edges[1:] + edges[:-1])
    age_s = root**2
    way_mm = math.copysign(bead.travel_mm_per_s, bead.end_mm - bead.start_mm)
    away_m = (places_mm[:, None] - (bead.start_mm + way_mm * (at_s - age_s - bead.begin_s))) * 1e-3
    reach_m2 = 4.0 * metal.spreads_m2_per_s * age_s
    kept = np.exp(-metal.gives_off_w_per_m2_k * age_s / (metal.stores_j_per_m3_k * wall_m))
    weight = 2.0 * np.diff(edges) / root * kept
    power_w = bead.heat_input_j_per_mm * bead.travel_mm_per_s
    near = _nearness(away_m, reach_m2, None if around_mm is None else around_mm * 1e-3)
    return power_w / (4.0 * math.pi * metal.conducts_w_per_m_k * wall_m) * (near @ weight)


def _nearness(away_m: Floats, reach_m2: Floats, around_m: float | None) -> Floats:
    """exp(−away² / reach²), and round a tube the same for every turn that heat can have taken."""
    import numpy as np

    if around_m is None:
        return np.exp(-(away_m**2) / reach_m2)
    nearest_m = away_m - around_m * np.round(away_m / around_m)
    turns = math.ceil(_FAR * math.sqrt(float(reach_m2.max())) / around_m / 2.0)
    near = np.zeros_like(nearest_m)
    for turn in range(-turns, turns + 1):
        near += np.exp(-((nearest_m + turn * around_m) ** 2) / reach_m2)
    return near
