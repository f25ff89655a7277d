"""Cooling of a wall without loss, thin and thick."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.physics.cooling_field import LaidBead, rise_k
from server.physics.cooling_metal import TubeMetal
from server.physics.cooling_wall import thick_wall_cooling_s, thin_wall_cooling_s, transition_wall_mm
from server.physics.errors import UnusableInput

HEAT = st.floats(20.0, 1000.0)


@given(HEAT, st.floats(100.0, 600.0), st.floats(610.0, 1500.0))
def test_at_the_transition_both_take_the_same_time(heat, to_c, from_c):
    """A wall of the transition's thickness cools in the same time by either formula; a thinner one takes longer."""
    wall = transition_wall_mm(heat, to_c, from_c=from_c)
    thick_s = thick_wall_cooling_s(heat, to_c, from_c=from_c)
    assert thin_wall_cooling_s(heat, wall, to_c, from_c=from_c) == pytest.approx(thick_s)
    assert thin_wall_cooling_s(heat, 0.9 * wall, to_c, from_c=from_c) > thick_s


def test_the_thin_formula_is_the_far_limit_of_the_field():
    """Far behind a quick long bead without loss, the field cools as the thin-wall formula says."""
    import numpy as np

    metal = TubeMetal(15.0, 2.9e6, 1e-9)
    held_s = thin_wall_cooling_s(100.0, 0.9, 427.0, metal=metal)
    bead = LaidBead(0.0, 6000.0, 0.0, 20.0, 100.0)
    passed_s = 3000.0 / 20.0
    rise = rise_k([bead], np.array([3000.0]), passed_s + held_s, 0.9, None, metal)[0]
    assert rise == pytest.approx(407.0, rel=0.01)


def test_two_stretches_of_cooling_add_up():
    """From hot to warm and from warm to cold is from hot to cold."""
    whole = thin_wall_cooling_s(100.0, 0.9, 200.0, from_c=800.0)
    parts = thin_wall_cooling_s(100.0, 0.9, 500.0, from_c=800.0) + thin_wall_cooling_s(100.0, 0.9, 200.0, from_c=500.0)
    assert parts == pytest.approx(whole)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: thin_wall_cooling_s(100.0, 0.9, 20.0), "to_c is 20.0; expected more than the start"),
        (lambda: thick_wall_cooling_s(100.0, 400.0, from_c=400.0), "from_c is 400.0; expected more than the end"),
        (lambda: thick_wall_cooling_s(100.0, 400.0, from_c=math.nan), "from_c"),
        (lambda: thin_wall_cooling_s(100.0, 0.0, 400.0), "wall_mm"),
        (lambda: transition_wall_mm(math.nan, 400.0), "heat_input_j_per_mm"),
    ],
)
def test_what_cannot_be_is_named(call, named):
    """Cooling to the start, from under the end, of no wall, of metal that conducts nothing: each is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
