"""How long to hold the gas after the arc until all metal is under a limit, as advice with its band."""

from __future__ import annotations

import math

from server.physics.band import Band
from server.physics.cooling_course import hottest_rise_k
from server.physics.cooling_metal import TITANIUM_TUBE, TubeMetal, over_metals
from server.physics.cooling_weld import TubeWeld
from server.physics.errors import UnusableInput
from server.physics.inputs import between, positive

CALIBRATED_SPREAD = 0.07


def hold_time_s(weld: TubeWeld, limit_c: float, shop_factor: float | None = None) -> Band:
    """Time from arc-off until no metal is above a limit temperature.

    Equation: the t at which max over s of θ(s, t) equals the limit, θ as in cooling_field.rise_k
    Inputs: weld, limit_c [°C]; shop_factor, from hold_factor, None for a shop that has measured nothing yet [1].
    Result: a Band [s]: the metal's own doubt, or ±7 % of the calibrated time.
    Example:
        >>> weld = TubeWeld(heat_input_j_per_mm=100.0, travel_mm_per_min=120.0, bead_mm=25.0, wall_mm=0.9)
        >>> hold_time_s(weld, limit_c=427.0).mapped(round)
        Band(low=10, expected=16, high=24)

    Range and traps: Advice, never a reason to fail a weld, and no figure for a procedure: the post-flow that the
        qualified procedure asks for comes first. Take the high end when nothing was measured. Lugs, dropouts and tube
        ends near the seam change it; doubts_of names what speaks against a figure. The heat input is in doubt itself:
        ±10 % of it is ±10 % of the time.
    Source: Green's function of an unrolled tube with loss, held by a finite-difference solver; effective titanium data.
    """
    rise = weld.limit_rise_k(limit_c)
    if shop_factor is None:
        return over_metals(lambda metal: _hold_s(weld, rise, metal))
    held_s = between("shop_factor", shop_factor, 0.2, 5.0) * _hold_s(weld, rise, TITANIUM_TUBE)
    return Band(held_s * (1.0 - CALIBRATED_SPREAD), held_s, held_s * (1.0 + CALIBRATED_SPREAD))


def hold_factor(weld: TubeWeld, limit_c: float, measured_s: float) -> float:
    """The one figure that fits the hold times of a shop: a measured hold over the expected one.

    Equation: f = measured / expected
    Inputs: weld and limit_c [°C] of the trial; measured_s, from arc-off to the limit at the hottest place [s].
    Result: factor [1], to keep for the shop.
    Example:
        >>> weld = TubeWeld(heat_input_j_per_mm=100.0, travel_mm_per_min=120.0, bead_mm=25.0, wall_mm=0.9)
        >>> round(hold_factor(weld, limit_c=427.0, measured_s=19.2), 2)
        1.21

    Range and traps: Measure one hold at the middle of a bead. Do not fit conductivity and loss to a thermocouple beside
        the bead: the two stand in for each other and predict worse than no fit. A factor beyond 0.5 … 2 is refused, as
        then something else is wrong.
    Source: our own trial against a solver with real material tables: one factor brought other welds to −5 … +7 %.
    """
    factor = positive("measured_s", measured_s) / hold_time_s(weld, limit_c).expected
    if not 0.5 <= factor <= 2.0:
        expected = f"half to twice the expected {measured_s / factor:.3g} s"
        raise UnusableInput("measured_s", measured_s, expected, "Check heat input, wall and where it was measured.")
    return factor


def _hold_s(weld: TubeWeld, rise: float, metal: TubeMetal) -> float:
    """Close in on the moment by halves, in the logarithm of time, as the hottest place only ever cools."""
    early_s, late_s = 1e-3, 1.0
    while hottest_rise_k(weld, late_s, metal) > rise:
        early_s, late_s = late_s, 4.0 * late_s
    for _ in range(18):
        middle_s = math.sqrt(early_s * late_s)
        if hottest_rise_k(weld, middle_s, metal) > rise:
            early_s = middle_s
        else:
            late_s = middle_s
    return late_s
