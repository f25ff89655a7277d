"""Arc energy per length, by speed and by bead."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.physics.arc_energy import arc_energy_j_per_mm, arc_energy_of_bead_j_per_mm
from server.physics.errors import UnusableInput

VOLTS = st.floats(5.0, 30.0)
AMPS = st.floats(5.0, 300.0)
SPEED = st.floats(10.0, 600.0)


@given(VOLTS, AMPS, SPEED, st.floats(1.0, 500.0))
def test_two_ways_to_one_energy(volts, amps, speed, bead_mm):
    """Volts, amps and speed give the same energy per length as the joules of the bead over its length."""
    arc_s = bead_mm / (speed / 60.0)
    of_bead = arc_energy_of_bead_j_per_mm(volts * amps * arc_s, bead_mm)
    assert of_bead == pytest.approx(arc_energy_j_per_mm(volts, amps, speed), rel=1e-12)


def test_no_travel_is_named():
    """Zero travel is refused by name, and the error says what a tack is recorded by."""
    with pytest.raises(UnusableInput, match=r"travel_mm_per_min is 0.0.*joules and its arc time"):
        arc_energy_j_per_mm(10.0, 50.0, 0.0)


def test_no_length_is_named():
    """A bead without length is refused by name."""
    with pytest.raises(UnusableInput, match="bead_mm"):
        arc_energy_of_bead_j_per_mm(1000.0, 0.0)


@pytest.mark.parametrize(
    ("volts", "amps", "travel", "named"),
    [(math.nan, 50, 120, "volts"), (-10, 50, 120, "volts"), (10, -50, 120, "amps"), (10, 50, math.nan, "travel")],
)
def test_bad_readings_are_named(volts, amps, travel, named):
    """A reading that is no number, or below zero, is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        arc_energy_j_per_mm(volts, amps, travel)
