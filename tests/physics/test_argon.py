"""Argon's weight, and how oxygen spreads in it."""

import pytest

from server.physics.argon import argon_density_kg_per_m3, oxygen_in_argon_m2_per_s
from server.physics.errors import UnusableInput


def test_argon_by_the_gas_law():
    """Twice the pressure is twice the density; at 20 °C oxygen spreads 1.132 times as fast as at 0 °C."""
    assert argon_density_kg_per_m3(20.0, 202.65) == pytest.approx(2.0 * argon_density_kg_per_m3(20.0))
    assert oxygen_in_argon_m2_per_s(20.0) / oxygen_in_argon_m2_per_s(0.0) == pytest.approx(1.132, abs=1e-3)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: argon_density_kg_per_m3(-273.15), "gas_c"),
    ],
)
def test_what_cannot_be_is_named(call, named):
    """Absolute zero is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
