"""Where beside a seam the temperature between passes is taken."""

from __future__ import annotations

from server.physics.inputs import between

_THIN_UP_TO_MM = 50.0


def measuring_distance_mm(wall_mm: float) -> float:
    """Distance from the edge of the groove at which interpass temperature is measured, on the welder's side.

    Equation: A = 4 t, at most 50 mm, for t ≤ 50 mm; 75 mm above
    Inputs: wall_mm t [mm].
    Result: distance [mm].
    Example:
        >>> measuring_distance_mm(1.6)
        6.4

    Range and traps: On a thin tube that is so near the seam that seconds count: note when it was taken. The qualified
        procedure may name another place, and comes first.
    Source: ISO 13916, read in a copy.
    """
    wall_mm = between("wall_mm", wall_mm, 0.05, 1000.0)
    return min(4.0 * wall_mm, 50.0) if wall_mm <= _THIN_UP_TO_MM else 75.0
