"""Heat input, kept apart from arc energy."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.physics.arc_energy import arc_energy_j_per_mm
from server.physics.errors import UnusableInput
from server.physics.heat_input import heat_input_j_per_mm

VOLTS = st.floats(5.0, 30.0)
AMPS = st.floats(5.0, 300.0)
SPEED = st.floats(10.0, 600.0)


@given(VOLTS, AMPS, SPEED)
def test_heat_input_is_six_tenths(volts, amps, speed):
    """TIG heat input is 0.6 of the arc energy, so it never equals it."""
    energy = arc_energy_j_per_mm(volts, amps, speed)
    assert heat_input_j_per_mm(energy) == pytest.approx(0.6 * energy, rel=1e-12)


def test_efficiency_in_percent_is_refused():
    """A thermal efficiency of 60 is refused with the word how to write it."""
    with pytest.raises(UnusableInput, match=r"60 % as 0.6"):
        heat_input_j_per_mm(100.0, 60.0)
