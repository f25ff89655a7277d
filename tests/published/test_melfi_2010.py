"""T. Melfi, "New Code Requirements for Calculating Heat Input", Welding Journal, June 2010 (read).

The article prints ASME IX QW-409.1 (a) volts × amps × 60 / travel and (c) energy / length, both without an efficiency.
The figures are those formulas worked out.
"""

import pytest

from server.physics.arc_energy import arc_energy_j_per_mm, arc_energy_of_bead_j_per_mm
from server.physics.heat_input import heat_input_j_per_mm


def test_formula_a_has_no_efficiency():
    """By (a), 10 V, 60 A and 90 mm/min are 0.400 kJ/mm, the same as arc energy and not as heat input with k."""
    assert arc_energy_j_per_mm(10.0, 60.0, 90.0) == pytest.approx(400.0, rel=1e-3)
    assert heat_input_j_per_mm(400.0) != pytest.approx(400.0, rel=1e-3)


def test_formulas_a_and_c_agree():
    """For a steady arc, (c) with its energy over its length is (a)."""
    arc_s = 40.0
    bead_mm = 90.0 / 60.0 * arc_s
    assert arc_energy_of_bead_j_per_mm(10.0 * 60.0 * arc_s, bead_mm) == pytest.approx(
        arc_energy_j_per_mm(10.0, 60.0, 90.0)
    )
