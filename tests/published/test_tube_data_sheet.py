"""Density of 3Al-2.5V titanium from an alloy seller's data sheet (read: 4.48 g/cm³), and a tube worked out from it."""

import pytest

from server.physics.tube_volume import straight_tube_l
from server.physics.tube_volume_shaped import tube_metal_g


def test_mass_of_a_tube():
    """A tube of 38.1 × 0.9 × 600 mm at 4.48 g/cm³ weighs 282.7 g."""
    assert tube_metal_g(38.1, 0.9, 600.0, 4.48) == pytest.approx(282.7, rel=5e-3)


@pytest.mark.parametrize(
    ("outside", "length", "litres"), [(38.1, 600.0, 0.621), (31.8, 600.0, 0.424), (44.5, 650.0, 0.931)]
)
def test_inner_volume(outside, length, litres):
    """Tubes with a wall of 0.9 mm hold 0.621, 0.424 and 0.931 L."""
    assert straight_tube_l(outside, 0.9, length) == pytest.approx(litres, rel=5e-3)
