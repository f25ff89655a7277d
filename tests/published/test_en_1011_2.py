"""Cooling time t8/5 by the formulas of EN 1011-2, as printed in a steel maker's welding handbook (3.1, 3.2; read).

t8/5 = (4300 − 4.3 T0)·10⁵·Q²/d²·[1/(500 − T0)² − 1/(800 − T0)²] and (6700 − 5 T0)·Q·[1/(500 − T0) − 1/(800 − T0)],
Q in kJ/mm, d in mm. The formulas were read; the figures are those formulas worked out, as no printed example is known.
They hold for steel alone. Our forms take its k = 24.1 W/mK and ρc = 7.83 MJ/m³K, which the formulas imply at 20 °C.
"""

import pytest

from server.physics.cooling_metal import TubeMetal
from server.physics.cooling_wall import thick_wall_cooling_s, thin_wall_cooling_s, transition_wall_mm

STEEL = TubeMetal(24.1, 7.83e6, 0.0)


def test_the_formulas_worked_out():
    """At 1 kJ/mm and 20 °C the printed formulas give 11.36357 s for 10 mm of wall and 5.28846 s for thick plate."""
    thin_s = (4300.0 - 4.3 * 20.0) * 1e5 / 10.0**2 * (1.0 / 480.0**2 - 1.0 / 780.0**2)
    thick_s = (6700.0 - 5.0 * 20.0) * (1.0 / 480.0 - 1.0 / 780.0)
    assert thin_s == pytest.approx(11.36357, abs=1e-5)
    assert thick_s == pytest.approx(5.28846, abs=1e-5)


def test_thin_plate():
    """Our thin-wall form gives the thin-plate figure to 0.1 %."""
    ours = thin_wall_cooling_s(1000.0, 10.0, to_c=500.0, start_c=20.0, from_c=800.0, metal=STEEL)
    assert ours == pytest.approx(11.36357, rel=1e-3)


def test_thick_plate():
    """Our thick-wall form gives the thick-plate figure to 0.1 %."""
    ours = thick_wall_cooling_s(1000.0, to_c=500.0, start_c=20.0, from_c=800.0, metal=STEEL)
    assert ours == pytest.approx(5.28846, rel=1e-3)


def test_transition():
    """Both take the same time at a wall of 14.6586 mm."""
    ours = transition_wall_mm(1000.0, to_c=500.0, start_c=20.0, from_c=800.0, metal=STEEL)
    assert ours == pytest.approx(14.6586, abs=0.01)
    thin = thin_wall_cooling_s(1000.0, 14.6586, to_c=500.0, start_c=20.0, from_c=800.0, metal=STEEL)
    thick = thick_wall_cooling_s(1000.0, to_c=500.0, start_c=20.0, from_c=800.0, metal=STEEL)
    assert thin / thick == pytest.approx(1.0, abs=1e-3)
