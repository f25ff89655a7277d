"""Pressure behind a hole, warnings, sealed tubes, argon's weight, and readings before forecasts."""

import math

import pytest

from server.physics.argon import argon_density_kg_per_m3, oxygen_in_argon_m2_per_s
from server.physics.errors import UnusableInput
from server.physics.interpass import measuring_distance_mm
from server.physics.purge_hole import blow_through_warning, hole_pressure_pa, pool_strength_pa
from server.physics.purge_reading import known_oxygen
from server.physics.sealed_tube import sealed_rise_kpa


def test_bernoulli_at_one_hole():
    """The pressure speeds argon up to flow over 0.61 of the hole: 10 L/min through 5 mm make 13.9 m/s and 161 Pa."""
    speed = 10.0 / 60e3 / (0.61 * math.pi * 0.0025**2)
    assert hole_pressure_pa(10.0, 5.0) == pytest.approx(0.5 * 1.661 * speed**2, rel=1e-3)


def test_half_the_hole_is_sixteen_times_the_pressure():
    """Halving a hole takes sixteen times the pressure, halving the flow a quarter, four holes a sixteenth."""
    one = hole_pressure_pa(10.0, 5.0)
    assert hole_pressure_pa(10.0, 2.5) == pytest.approx(16.0 * one)
    assert hole_pressure_pa(5.0, 5.0) == pytest.approx(one / 4.0)
    assert hole_pressure_pa(10.0, 5.0, holes=4) == pytest.approx(one / 16.0)


def test_the_warning_comes_above_its_figure():
    """At 300 Pa there is no warning, just above there is, with both pressures and what to do."""
    assert blow_through_warning(300.0) is None
    said = blow_through_warning(1242.0)
    assert said is not None
    assert "1242 Pa, above 300 Pa" in said
    assert "Turn the purge down" in said


def test_a_wide_pool_holds_less():
    """A pool of twice the width holds half the pressure."""
    assert pool_strength_pa(8.0) == pytest.approx(pool_strength_pa(4.0) / 2.0)


def test_gas_heated_in_a_sealed_tube():
    """Twice the absolute temperature is twice the pressure, and the tube's rise undone on cooling."""
    assert sealed_rise_kpa(0.0, 273.15) == pytest.approx(101.325)
    assert sealed_rise_kpa(273.15, 0.0, pressure_kpa=202.65) == pytest.approx(-101.325)


def test_argon_by_the_gas_law():
    """Twice the pressure is twice the density; at 20 °C oxygen spreads 1.132 times as fast as at 0 °C."""
    assert argon_density_kg_per_m3(20.0, 202.65) == pytest.approx(2.0 * argon_density_kg_per_m3(20.0))
    assert oxygen_in_argon_m2_per_s(20.0) / oxygen_in_argon_m2_per_s(0.0) == pytest.approx(1.132, abs=1e-3)


@pytest.mark.parametrize(("forecast", "reading"), [(12.0, 35.0), (35.0, 12.0), (35.0, 0.0)])
def test_a_reading_always_overrides(forecast, reading):
    """Whichever is higher, the reading is what counts, zero included, and is marked as read."""
    assert known_oxygen(forecast, reading) == (reading, "read")


def test_without_a_reading_it_is_computed():
    """Without a reading the forecast stands, marked as computed."""
    assert known_oxygen(12.0, None) == (12.0, "computed")


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: hole_pressure_pa(10.0, 0.0), "hole_mm"),
        (lambda: hole_pressure_pa(-1.0, 5.0), "flow_l_per_min"),
        (lambda: hole_pressure_pa(10.0, 5.0, holes=0), "holes"),
        (lambda: blow_through_warning(math.nan), "pressure_pa"),
        (lambda: sealed_rise_kpa(-300.0, 20.0), "from_c"),
        (lambda: argon_density_kg_per_m3(-273.15), "gas_c"),
        (lambda: known_oxygen(12.0, math.nan), "reading_ppm"),
        (lambda: measuring_distance_mm(0.0), "wall_mm"),
    ],
)
def test_what_cannot_be_is_named(call, named):
    """A hole of nothing, a flow below zero, a pressure that is no number, less than absolute zero: refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
