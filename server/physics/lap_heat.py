"""The heat a bead meets that it laid itself, when it closes round a tube."""

from __future__ import annotations

from server.physics.band import Band
from server.physics.cooling_field import rise_k
from server.physics.cooling_metal import TubeMetal, over_metals
from server.physics.cooling_weld import TubeWeld
from server.physics.errors import UnusableInput
from server.physics.inputs import between


def heat_ahead_c(weld: TubeWeld, share_of_lap: float, ahead_mm: float = 10.0) -> Band:
    """Temperature of the metal just ahead of the torch at a share of one continuous lap round a tube.

    Equation: T = T0 + θ(s + ahead, t) with s = share · C, t = s / v, θ as in cooling_field.rise_k
    Inputs: weld with around_mm C [mm]; share_of_lap, above 0 up to 1 [1]; ahead_mm [mm].
    Result: a Band [°C].
    Example:
        >>> lap = TubeWeld(100.0, 120.0, bead_mm=106.8, wall_mm=0.9, around_mm=106.8)
        >>> [heat_ahead_c(lap, share).mapped(round).expected for share in (0.1, 0.5, 0.9, 1.0)]
        [41, 59, 211, 257]

    Range and traps: Advice, never a verdict. A lap meets its own beginning from about nine tenths on: less current, or
        quarters with a pause, keep the end from running hotter than the start. Ask 2 mm or more ahead; nearer, the
        arc itself counts.
    Source: Green's function of an unrolled tube, held by a finite-difference solver in the tests.
    """
    if weld.around_mm is None:
        raise UnusableInput("around_mm", None, "the way round the tube", "Give its circumference in millimetres.")
    at_mm = between("share_of_lap", share_of_lap, 0.001, 1.0) * weld.around_mm
    place_mm = at_mm + between("ahead_mm", ahead_mm, 2.0, weld.around_mm / 2.0)
    return over_metals(lambda metal: weld.start_c + _rise_at(weld, at_mm, place_mm, metal))


def _rise_at(weld: TubeWeld, at_mm: float, place_mm: float, metal: TubeMetal) -> float:
    import numpy as np

    travelled_s = at_mm / (weld.travel_mm_per_min / 60.0)
    places_mm = np.array([place_mm])
    return float(rise_k([weld.laid()], places_mm, travelled_s, weld.wall_mm, weld.around_mm, metal)[0])
