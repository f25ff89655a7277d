"""Heat input as worked in two open exercise pages, and arc energy against heat input as TWI's answer tells them apart.

Read: exercise page 1 (20 V, 300 A, 2.5 mm/s), exercise page 2 (24 V, 120 A, 10 in/min), TWI's answer "What is the
difference between heat input and arc energy?" (k relative to submerged arc, TIG 0.6; EN 1011-1 table 1 second-hand).
"""

import pytest

from server.physics.arc_energy import arc_energy_j_per_mm
from server.physics.heat_input import heat_input_j_per_mm
from server.physics.units import convert_unit, read_quantity


def test_exercise_in_millimetres():
    """20 V, 300 A and 2.5 mm/s are printed as 2.4 kJ/mm."""
    assert arc_energy_j_per_mm(20.0, 300.0, 2.5 * 60.0) == pytest.approx(2400.0, rel=1e-12)


def test_exercise_in_inches():
    """24 V, 120 A and 10 in/min are printed as 17 280 J/in, which is 0.680 kJ/mm."""
    energy = arc_energy_j_per_mm(24.0, 120.0, read_quantity("travel", "10 in/min", "mm/min"))
    assert convert_unit(energy, "J/mm", "J/in") == pytest.approx(17_280.0, rel=1e-9)
    assert energy == pytest.approx(680.0, rel=1e-3)


def test_tig_efficiency_of_the_convention():
    """TIG's k is printed as 0.6: 10 V, 60 A, 1.5 mm/s are 0.400 kJ/mm of arc energy and 0.240 kJ/mm of heat input."""
    energy = arc_energy_j_per_mm(10.0, 60.0, 90.0)
    assert energy == pytest.approx(400.0, rel=1e-3)
    assert heat_input_j_per_mm(energy) == pytest.approx(240.0, rel=1e-3)
