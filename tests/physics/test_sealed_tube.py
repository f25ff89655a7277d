"""Gas heated in a tube without a vent."""

import pytest

from server.physics.errors import UnusableInput
from server.physics.sealed_tube import sealed_rise_kpa


def test_gas_heated_in_a_sealed_tube():
    """Twice the absolute temperature is twice the pressure, and the tube's rise undone on cooling."""
    assert sealed_rise_kpa(0.0, 273.15) == pytest.approx(101.325)
    assert sealed_rise_kpa(273.15, 0.0, pressure_kpa=202.65) == pytest.approx(-101.325)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: sealed_rise_kpa(-300.0, 20.0), "from_c"),
    ],
)
def test_what_cannot_be_is_named(call, named):
    """A start below absolute zero is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
