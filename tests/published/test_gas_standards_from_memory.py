"""Dew points that argon standards pair with a water content; both pairs FROM MEMORY, neither table was read.

AWS A5.32 SG-A: at most 10.5 ppm of water, dew point −60 °C. ISO 14175 I1: at most 40 ppm, dew point −50 °C.
"""

import pytest

from server.physics.dew_point import dew_point_c, water_ppmv


def test_shielding_gas_of_sixty_below():
    """From memory: 10.5 ppm goes with −60 °C."""
    assert dew_point_c(10.5) == pytest.approx(-60.0, abs=0.5)


def test_shielding_gas_of_fifty_below():
    """From memory: 40 ppm goes with −50 °C."""
    assert water_ppmv(-50.0) == pytest.approx(40.0, rel=0.05)
