"""Inner volume of straight, tapered and oval tubes."""

from __future__ import annotations

import math

from server.physics.errors import UnusableInput
from server.physics.inputs import between, positive


def straight_tube_l(outside_mm: float, wall_mm: float, length_mm: float) -> float:
    """Inner volume of a straight round tube of one wall.

    Equation: V = π/4 · (D − 2 s)² · L
    Inputs: outside_mm diameter D, wall_mm s, length_mm L [mm].
    Result: volume [L].
    Example:
        >>> round(straight_tube_l(outside_mm=38.1, wall_mm=0.9, length_mm=600.0), 3)
        0.621

    Range and traps: L is the clear length inside, between the surfaces the tube lands on; mitres take some of it.
        A butted tube taken as plain reads about 2 % low.
    Source: geometry.
    """
    bore_mm = _bore_mm(outside_mm, wall_mm)
    return tapered_tube_l(bore_mm, bore_mm, length_mm)


def tapered_tube_l(bore_start_mm: float, bore_end_mm: float, length_mm: float) -> float:
    """Inner volume of a straight tube whose round bore changes evenly from end to end.

    Equation: V = π L / 3 · (r1² + r1 r2 + r2²)
    Inputs: bore_start_mm 2 r1 and bore_end_mm 2 r2, inner diameters; length_mm L [mm].
    Result: volume [L].
    Example:
        >>> round(tapered_tube_l(bore_start_mm=20.0, bore_end_mm=10.0, length_mm=400.0), 4)
        0.0733

    Range and traps: Inner diameters, not outer. The mean diameter squared would read up to a quarter low.
    Source: geometry of a frustum.
    """
    first, last = positive("bore_start_mm", bore_start_mm) / 2.0, positive("bore_end_mm", bore_end_mm) / 2.0
    squares_mm2 = first**2 + first * last + last**2
    return math.pi * between("length_mm", length_mm, 0.0, 20_000.0) / 3.0 * squares_mm2 * 1e-6


def oval_tube_l(wide_mm: float, narrow_mm: float, length_mm: float) -> float:
    """Inner volume of a straight tube whose bore has been pressed to an ellipse.

    Equation: V = π/4 · a · b · L
    Inputs: wide_mm a and narrow_mm b, the two inner diameters; length_mm L [mm].
    Result: volume [L].
    Example:
        >>> round(oval_tube_l(wide_mm=24.0, narrow_mm=18.0, length_mm=160.0), 4)
        0.0543

    Range and traps: Inner diameters. A tube pressed flat-sided holds a little more than the ellipse.
    Source: geometry of an ellipse.
    """
    area_mm2 = math.pi / 4.0 * positive("wide_mm", wide_mm) * positive("narrow_mm", narrow_mm)
    return area_mm2 * between("length_mm", length_mm, 0.0, 20_000.0) * 1e-6


def _bore_mm(outside_mm: float, wall_mm: float) -> float:
    bore_mm = positive("outside_mm", outside_mm) - 2.0 * positive("wall_mm", wall_mm)
    if bore_mm <= 0.0:
        expected = f"less than half of the outside, {outside_mm / 2.0:g} mm"
        raise UnusableInput("wall_mm", wall_mm, expected, "Check which figure is the wall.")
    return bore_mm
