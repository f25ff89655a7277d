"""Density of argon at 1.013 bar as a gas maker's data and two property pages print it (read)."""

import pytest

from server.physics.argon import argon_density_kg_per_m3


@pytest.mark.parametrize(("gas_c", "density"), [(0.0, 1.7835), (15.0, 1.6903), (25.0, 1.6335)])
def test_density(gas_c, density):
    """Density at 0, 15 and 25 °C is the printed one to 0.2 %."""
    assert argon_density_kg_per_m3(gas_c, 101.3) == pytest.approx(density, rel=2e-3)
