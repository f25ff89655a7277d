"""The hottest metal of a weld against time after the arc, which the hold time is read off."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from typing import TYPE_CHECKING

from server.physics.band import Band
from server.physics.cooling_field import rise_k
from server.physics.cooling_metal import TubeMetal, over_metals
from server.physics.cooling_weld import TubeWeld
from server.physics.inputs import between

if TYPE_CHECKING:
    from server.physics.arrays import Floats

_PLACES = 49


def hottest_after_c(weld: TubeWeld, after_s: Sequence[float]) -> tuple[Band, ...]:
    """Temperature of the hottest metal at moments after the arc went out.

    Equation: T = T0 + max over s of θ(s, t), θ as in cooling_field.rise_k
    Inputs: weld; after_s, the moments after arc-off [s].
    Result: a Band for each moment [°C].
    Example:
        >>> weld = TubeWeld(heat_input_j_per_mm=100.0, travel_mm_per_min=120.0, bead_mm=25.0, wall_mm=0.9)
        >>> [band.mapped(round).expected for band in hottest_after_c(weld, [5.0, 15.9, 60.0])]
        [1019, 427, 81]

    Range and traps: Advice, never a verdict. In the first seconds the formula, which knows no molten pool, gives
        temperatures that metal cannot have; only what lies well under the melting point means anything.
    Source: as hold_time_s.
    """
    moments = [between("after_s", moment, 1e-3, 1e6) for moment in after_s]
    return tuple(over_metals(partial(_hottest_c, weld, moment)) for moment in moments)


def hottest_rise_k(weld: TubeWeld, after_s: float, metal: TubeMetal) -> float:
    """How far the hottest metal is above its temperature at first, a moment after the arc, in one metal.

    Equation: max over s of θ(s, t), θ as in cooling_field.rise_k
    Inputs: weld; after_s t, from arc-off [s]; metal.
    Result: rise of temperature [K].
    Example:
        >>> from server.physics.cooling_metal import TITANIUM_TUBE
        >>> weld = TubeWeld(heat_input_j_per_mm=100.0, travel_mm_per_min=120.0, bead_mm=25.0, wall_mm=0.9)
        >>> round(hottest_rise_k(weld, 15.9, TITANIUM_TUBE))
        407

    Range and traps: As hottest_after_c. Looked for at 49 places along the bead, or all round a tube.
    Source: as hold_time_s.
    """
    bead = weld.laid()
    rises = rise_k([bead], _places_mm(weld), bead.end_s + after_s, weld.wall_mm, weld.around_mm, metal)
    return float(rises.max())


def _hottest_c(weld: TubeWeld, after_s: float, metal: TubeMetal) -> float:
    return weld.start_c + hottest_rise_k(weld, after_s, metal)


def _places_mm(weld: TubeWeld) -> Floats:
    """Where the hottest metal can be: along the bead, or anywhere round a tube."""
    import numpy as np

    return np.linspace(0.0, weld.bead_mm if weld.around_mm is None else weld.around_mm, _PLACES)
