"""Volumes of straight, tapered and oval tubes against thin slices and one another."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.physics.errors import UnusableInput
from server.physics.tube_volume import oval_tube_l, straight_tube_l, tapered_tube_l
from server.physics.tube_volume_shaped import bent_tube_l, butted_tube_l

BORE = st.floats(8.0, 45.0)
LENGTH = st.floats(10.0, 900.0)


@given(BORE, BORE, LENGTH)
def test_a_taper_is_the_sum_of_its_slices(first, last, length):
    """A tapered tube holds what ten thousand thin straight slices of it hold."""
    bores = [first + (last - first) * (k + 0.5) / 10_000 for k in range(10_000)]
    slices_l = sum(math.pi / 4.0 * bore**2 * length / 10_000 for bore in bores) * 1e-6
    assert tapered_tube_l(first, last, length) == pytest.approx(slices_l, rel=1e-6)


@given(BORE, LENGTH)
def test_one_bore_in_many_guises(bore, length):
    """Straight, tapered to itself, oval but round, butted in one wall, and bent by nothing: one volume."""
    straight_l = straight_tube_l(bore + 1.8, 0.9, length)
    assert tapered_tube_l(bore, bore, length) == pytest.approx(straight_l)
    assert oval_tube_l(bore, bore, length) == pytest.approx(straight_l)
    assert butted_tube_l(bore + 1.8, [(0.9, length / 2), (0.9, length / 2)]) == pytest.approx(straight_l)
    assert bent_tube_l(bore + 1.8, 0.9, length, []) == pytest.approx(straight_l)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: straight_tube_l(20.0, 10.0, 100.0), "wall_mm is 10.0; expected less than half of the outside, 10 mm"),
        (lambda: straight_tube_l(20.0, 0.0, 100.0), "wall_mm"),
        (lambda: straight_tube_l(20.0, 1.0, -1.0), "length_mm"),
        (lambda: tapered_tube_l(0.0, 5.0, 100.0), "bore_start_mm"),
        (lambda: oval_tube_l(20.0, math.nan, 100.0), "narrow_mm"),
    ],
)
def test_tubes_that_cannot_be_are_named(call, named):
    """A wall that leaves no bore, no wall, a negative length, a bend past a circle: each is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
