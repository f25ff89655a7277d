"""Inner volume of butted and bent tubes, and the mass of metal in a tube."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

from server.physics.errors import UnusableInput
from server.physics.inputs import between, positive
from server.physics.tube_volume import straight_tube_l, tapered_tube_l


def butted_tube_l(outside_mm: float, zones: Sequence[tuple[float, float]], taper_mm: float = 0.0) -> float:
    """Inner volume of a straight tube drawn with several walls inside one outside diameter.

    Equation: V = Σ π/4 · (D − 2 si)² · Li + Σ frustum between neighbours
    Inputs: outside_mm D [mm]; zones, pairs of wall si and length Li in order [mm, mm]; taper_mm, the length of each
        change of wall, which lies between two zones and is not part of their lengths [mm].
    Result: volume [L].
    Example:
        >>> round(butted_tube_l(outside_mm=31.8, zones=[(0.9, 100.0), (0.6, 340.0), (0.9, 100.0)], taper_mm=30.0), 4)
        0.4347

    Range and traps: Give lengths as cut, not as drawn: a shortened tube loses a butt, not its middle.
    Source: geometry.
    """
    if not zones:
        raise UnusableInput(
            "zones", zones, "one wall and length at least", "Write the walls in order, such as 0.9/0.6/0.9."
        )
    straight_l = sum(straight_tube_l(outside_mm, wall_mm, length_mm) for wall_mm, length_mm in zones)
    bores_mm = [outside_mm - 2.0 * wall_mm for wall_mm, _ in zones]
    return straight_l + sum(tapered_tube_l(*ends_mm, taper_mm) for ends_mm in pairwise(bores_mm))


def bent_tube_l(outside_mm: float, wall_mm: float, straight_mm: float, bends: Sequence[tuple[float, float]]) -> float:
    """Inner volume of a round tube with bends, along its centre line.

    Equation: V = π/4 · (D − 2 s)² · (L + Σ Ri · φi)
    Inputs: outside_mm D, wall_mm s, straight_mm L, all straight lengths together [mm];
        bends, pairs of centre-line radius Ri and angle φi [mm, °].
    Result: volume [L].
    Example:
        >>> round(bent_tube_l(outside_mm=22.2, wall_mm=0.9, straight_mm=332.1, bends=[(180.0, 10.0), (180.0, 10.0)]), 4)
        0.1291

    Range and traps: The bore is taken as round through the bend; 24 × 18 mm in place of round is 3 % less.
    Source: theorem of Pappus: area times the path of its centre.
    """
    arcs_mm = (
        positive("bend_radius_mm", radius_mm) * math.radians(between("bend_deg", angle_deg, 0.0, 360.0))
        for radius_mm, angle_deg in bends
    )
    return straight_tube_l(outside_mm, wall_mm, between("straight_mm", straight_mm, 0.0, 20_000.0) + sum(arcs_mm))


def tube_metal_g(outside_mm: float, wall_mm: float, length_mm: float, density_g_per_cm3: float) -> float:
    """Mass of a straight tube, to weigh a wall that cannot be reached.

    Equation: m = ρ · π · (D − s) · s · L
    Inputs: outside_mm D, wall_mm s, length_mm L [mm]; density_g_per_cm3 ρ [g/cm³].
    Result: mass [g].
    Example:
        >>> round(tube_metal_g(outside_mm=38.1, wall_mm=0.9, length_mm=600.0, density_g_per_cm3=4.48), 1)
        282.7

    Range and traps: Square ends. Alloys differ: 4.51 unalloyed, 4.48 for 3Al-2.5V, 4.42 to 4.43 g/cm³ for 6Al-4V.
    Source: geometry; densities from alloy sellers' data sheets.
    """
    straight_tube_l(outside_mm, wall_mm, length_mm)  # refuses a wall that leaves no bore
    area_mm2 = math.pi * (outside_mm - wall_mm) * wall_mm
    return between("density_g_per_cm3", density_g_per_cm3, 1.0, 25.0) * area_mm2 * length_mm * 1e-3
