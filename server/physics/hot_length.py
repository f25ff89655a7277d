"""How much of a seam is still hot behind the torch, which is what a trailing shield has to cover."""

from __future__ import annotations

from server.physics.band import Band
from server.physics.cooling_field import rise_k
from server.physics.cooling_metal import TubeMetal, over_metals
from server.physics.cooling_weld import TubeWeld

_STEP_MM = 0.5
# A bead heats no more than this beyond its own start before the metal there is under any limit that matters.
_BEYOND_MM = 60.0


def hot_length_mm(weld: TubeWeld, limit_c: float) -> Band:
    """Length of seam behind the torch that is above a limit temperature when the arc goes out.

    Equation: the first s behind the arc at which θ(s, t_end) falls under the limit, θ as in cooling_field.rise_k
    Inputs: weld, limit_c [°C].
    Result: a Band [mm].
    Example:
        >>> lap = TubeWeld(100.0, 120.0, bead_mm=106.8, wall_mm=0.9, around_mm=106.8)
        >>> hot_length_mm(lap, limit_c=427.0).mapped(round)
        Band(low=48, expected=68, high=87)

    Range and traps: Advice, never a verdict. Metal ahead of the torch, and a few millimetres to its sides, is hot too.
        A trailing shield shorter than this leaves hot metal in air; the colour of the seam shows whether it did.
    Source: as hold_time_s.
    """
    rise = weld.limit_rise_k(limit_c)
    return over_metals(lambda metal: _hot_mm(weld, rise, metal))


def _hot_mm(weld: TubeWeld, rise: float, metal: TubeMetal) -> float:
    import numpy as np

    bead = weld.laid()
    farthest_mm = weld.bead_mm + _BEYOND_MM if weld.around_mm is None else weld.around_mm
    behind_mm = np.arange(_STEP_MM, farthest_mm, _STEP_MM)
    rises = rise_k([bead], weld.bead_mm - behind_mm, bead.end_s, weld.wall_mm, weld.around_mm, metal)
    cool = np.flatnonzero(rises < rise)
    return float(behind_mm[cool[0]]) if cool.size else farthest_mm
