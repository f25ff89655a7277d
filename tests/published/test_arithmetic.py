"""Figures that follow from a definition alone: arithmetic, with no source beside it. Two rest on common practice."""

import pytest

from server.physics.arc_energy import arc_energy_j_per_mm, arc_energy_of_bead_j_per_mm
from server.physics.pulse import pulse_mean, pulse_rms
from server.physics.pulse_power import averaging_shortfall_w, pulse_means_product_w, pulse_power_w
from server.physics.purge_single import OneVolume, purge_changes, purge_oxygen_ppm
from server.physics.units import read_quantity


def test_heat_per_length_by_definition():
    """10 V, 50 A at 2 mm/s are 250 J/mm."""
    assert arc_energy_j_per_mm(10.0, 50.0, 120.0) == pytest.approx(250.0, rel=1e-12)


def test_pulse_identity():
    """120/30 A, on for 0.4, on a line of 10 V + 0.04 V/A: 912.0 W true, 834.24 W by means, 77.76 W between."""
    levels = (10.0 + 0.04 * 120.0, 120.0, 10.0 + 0.04 * 30.0, 30.0, 0.4)
    assert pulse_power_w(*levels) == pytest.approx(912.0, rel=1e-9)
    assert pulse_means_product_w(*levels) == pytest.approx(834.24, rel=1e-9)
    assert averaging_shortfall_w(120.0, 30.0, 0.4, 0.04) == pytest.approx(77.76, rel=1e-9)


def test_a_pulse_worked_through():
    """80/20 A on for 0.4 at 11/9 V, 40 s, 60 mm: mean 44.0 A, 460 W, 0.3067 kJ/mm, and neither 431 nor 521 W."""
    levels = (11.0, 80.0, 9.0, 20.0, 0.4)
    assert pulse_mean(80.0, 20.0, 0.4) == pytest.approx(44.0, rel=1e-3)
    assert pulse_rms(80.0, 20.0, 0.4) == pytest.approx(52.9, rel=1e-3)
    assert pulse_power_w(*levels) == pytest.approx(460.0, rel=1e-3)
    assert pulse_means_product_w(*levels) == pytest.approx(431.2, rel=1e-3)
    assert pulse_rms(11.0, 9.0, 0.4) * pulse_rms(80.0, 20.0, 0.4) == pytest.approx(521.2, rel=1e-3)
    assert arc_energy_of_bead_j_per_mm(460.0 * 40.0, 60.0) == pytest.approx(306.7, rel=1e-3)


@pytest.mark.parametrize(
    ("written", "unit", "number"), [("20 cfh", "L/min", 9.44), ("800 °F", "°C", 426.7), ("-76 °F", "°C", -60.0)]
)
def test_units_of_the_shop(written, unit, number):
    """20 cfh are 9.44 L/min, 800 °F are 426.7 °C and −76 °F are −60.0 °C."""
    assert read_quantity("x", written, unit) == pytest.approx(number, rel=1e-3)


@pytest.mark.parametrize(("changes", "ppm"), [(5.0, 1412.0), (10.0, 9.5)])
def test_ideal_mixing(changes, ppm):
    """Common practice, no source: ideal mixing leaves 1412 ppm after 5 volume changes and 9.5 ppm after 10."""
    one = OneVolume(1.0, 60.0, start_ppm=209_500.0)
    assert purge_oxygen_ppm(one, changes) == pytest.approx(ppm, rel=1e-2)


@pytest.mark.parametrize(("ppm", "changes"), [(100.0, 7.65), (50.0, 8.34), (20.0, 9.26), (10.0, 9.95)])
def test_changes_to_a_level(ppm, changes):
    """Common practice, no source: 100, 50, 20 and 10 ppm take 7.65, 8.34, 9.26 and 9.95 volume changes."""
    assert purge_changes(OneVolume(1.0, 60.0, start_ppm=209_500.0), ppm) == pytest.approx(changes, abs=6e-3)
