"""Dew point and water content, each from the other."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.physics.dew_point import dew_point_c, water_ppmv
from server.physics.errors import UnusableInput


@given(st.floats(-100.0, 0.0), st.floats(50.0, 20_000.0))
def test_there_and_back(dew_c, pressure_kpa):
    """A dew point comes back from its water content, at any pressure, to a millionth of a degree."""
    assert dew_point_c(water_ppmv(dew_c, pressure_kpa), pressure_kpa) == pytest.approx(dew_c, abs=1e-6)


@given(st.floats(-100.0, -0.1))
def test_warmer_is_wetter(dew_c):
    """A tenth of a degree more is more water."""
    assert water_ppmv(dew_c + 0.1) > water_ppmv(dew_c)


def test_ice_melts_at_its_vapour_pressure():
    """At 0 °C ice holds 611 Pa over it, as every steam table begins."""
    assert water_ppmv(0.0) * 101_325.0 / 1e6 == pytest.approx(611.15, abs=0.3)


def test_clausius_and_clapeyron():
    """The slope of the curve is the heat of sublimation of ice, 51.06 kJ/mol, to 1 %."""
    warm, cold = 253.15, 243.15
    slope = math.log(water_ppmv(-20.0) / water_ppmv(-30.0)) / (1.0 / cold - 1.0 / warm)
    assert slope * 8.314 == pytest.approx(51_060.0, rel=0.01)


@pytest.mark.parametrize(("call", "number"), [(water_ppmv, -101.0), (water_ppmv, 5.0), (water_ppmv, math.nan)])
def test_dew_points_outside_are_named(call, number):
    """A dew point warmer than ice, colder than −100 °C, or no number is refused by name."""
    with pytest.raises(UnusableInput, match="dew_point_c"):
        call(number)


@pytest.mark.parametrize("content", [0.0, 0.01, 7000.0, -1.0])
def test_water_contents_outside_are_named(content):
    """Dry beyond −100 °C, wetter than ice allows, or below zero is refused by name."""
    with pytest.raises(UnusableInput, match="water_ppmv"):
        dew_point_c(content)
