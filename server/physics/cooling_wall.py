"""Cooling of a thin or thick wall after a weld has passed, without loss from its faces."""

from __future__ import annotations

import math

from server.physics.cooling_metal import TITANIUM_TUBE, TubeMetal
from server.physics.errors import UnusableInput
from server.physics.inputs import between, finite, positive


def thin_wall_cooling_s(
    heat_input_j_per_mm: float,
    wall_mm: float,
    to_c: float,
    start_c: float = 20.0,
    from_c: float = math.inf,
    metal: TubeMetal = TITANIUM_TUBE,
) -> float:
    """Time for the middle of a weld in a thin wall to cool from one temperature to another, all heat kept in the wall.

    Equation: t = (q / d)² / (4 π k ρc) · [1 / (T2 − T0)² − 1 / (T1 − T0)²]
    Inputs: heat_input_j_per_mm q [J/mm], wall_mm d [mm], to_c T2, start_c T0, from_c T1 [°C], metal k and ρc.
    Result: time [s].
    Example:
        >>> round(thin_wall_cooling_s(heat_input_j_per_mm=100.0, wall_mm=0.9, to_c=427.0), 1)
        136.3

    Range and traps: Not for a welder: thin titanium loses most of its heat from its faces, and hold_time_s, which
        counts that, is five times shorter. Walls under half of transition_wall_mm; long welds.
    Source: Rosenthal's thin-plate limit; the form of the thin-plate formula of EN 1011-2.
    """
    per_wall = positive("heat_input_j_per_mm", heat_input_j_per_mm) * 1e3 / (positive("wall_mm", wall_mm) * 1e-3)
    cool_k, hot_k = _above(to_c, start_c, from_c)
    factor = 4.0 * math.pi * metal.conducts_w_per_m_k * metal.stores_j_per_m3_k
    return per_wall**2 / factor * (1.0 / cool_k**2 - 1.0 / hot_k**2)


def thick_wall_cooling_s(
    heat_input_j_per_mm: float,
    to_c: float,
    start_c: float = 20.0,
    from_c: float = math.inf,
    metal: TubeMetal = TITANIUM_TUBE,
) -> float:
    """Time for the middle of a weld on a thick wall to cool from one temperature to another.

    Equation: t = q / (2 π k) · [1 / (T2 − T0) − 1 / (T1 − T0)]
    Inputs: heat_input_j_per_mm q [J/mm], to_c T2, start_c T0, from_c T1 [°C], metal k.
    Result: time [s].
    Example:
        >>> round(thick_wall_cooling_s(heat_input_j_per_mm=100.0, to_c=427.0), 1)
        2.6

    Range and traps: Walls thicker than transition_wall_mm: no bicycle tube is. Kept for thick parts and as a check.
    Source: Rosenthal's thick-plate limit; the form of the thick-plate formula of EN 1011-2.
    """
    cool_k, hot_k = _above(to_c, start_c, from_c)
    per_length = positive("heat_input_j_per_mm", heat_input_j_per_mm) * 1e3
    return per_length / (2.0 * math.pi * metal.conducts_w_per_m_k) * (1.0 / cool_k - 1.0 / hot_k)


def transition_wall_mm(
    heat_input_j_per_mm: float,
    to_c: float,
    start_c: float = 20.0,
    from_c: float = math.inf,
    metal: TubeMetal = TITANIUM_TUBE,
) -> float:
    """Wall at which thin-wall and thick-wall cooling take the same time.

    Equation: d = √{q / (2 ρc) · [1 / (T2 − T0) + 1 / (T1 − T0)]}
    Inputs: heat_input_j_per_mm q [J/mm], to_c T2, start_c T0, from_c T1 [°C], metal ρc.
    Result: wall [mm].
    Example:
        >>> round(transition_wall_mm(heat_input_j_per_mm=100.0, to_c=427.0), 1)
        6.5

    Range and traps: Below half of it a wall cools as thin, above it as thick, between neither formula holds.
    Source: equality of the two formulas.
    """
    cool_k, hot_k = _above(to_c, start_c, from_c)
    per_length = positive("heat_input_j_per_mm", heat_input_j_per_mm) * 1e3
    return 1e3 * math.sqrt(per_length / (2.0 * metal.stores_j_per_m3_k) * (1.0 / cool_k + 1.0 / hot_k))


def _above(to_c: float, start_c: float, from_c: float) -> tuple[float, float]:
    """Both temperatures above the start, in kelvin; refused unless start, end and beginning rise in that order."""
    start_c = between("start_c", start_c, -50.0, 1500.0)
    if finite("to_c", to_c) <= start_c:
        raise UnusableInput("to_c", to_c, f"more than the start, {start_c:g} °C", "Metal never cools below its start.")
    if not from_c > to_c:
        raise UnusableInput("from_c", from_c, f"more than the end, {to_c:g} °C", "Cooling runs from hot to cold.")
    return to_c - start_c, from_c - start_c
