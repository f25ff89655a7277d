"""Volumes of tubes against thin slices and one another."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.physics.errors import UnusableInput
from server.physics.tube_volume import oval_tube_l, straight_tube_l, tapered_tube_l
from server.physics.tube_volume_shaped import bent_tube_l, butted_tube_l, tube_metal_g

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


def test_a_bend_counts_along_its_centre_line():
    """A half circle of centre-line radius 100 mm adds π · 100 mm of tube."""
    bent_l = bent_tube_l(20.0, 1.0, 50.0, [(100.0, 90.0), (100.0, 90.0)])
    assert bent_l == pytest.approx(straight_tube_l(20.0, 1.0, 50.0 + math.pi * 100.0))


def test_a_bend_by_rings():
    """A quarter of a ring cut into shells round its axis holds the same."""
    count, radius, bore = 4000, 60.0, 20.0
    at = [radius - bore / 2 + bore * (k + 0.5) / count for k in range(count)]
    heights = [2.0 * math.sqrt((bore / 2) ** 2 - (r - radius) ** 2) for r in at]
    shells_l = sum(math.pi / 2 * r * height * bore / count for r, height in zip(at, heights, strict=True)) * 1e-6
    assert bent_tube_l(22.0, 1.0, 0.0, [(radius, 90.0)]) == pytest.approx(shells_l, rel=1e-4)


def test_butts_lie_between_their_walls():
    """A butted tube holds more than one of its thick wall and less than one of its thin wall, by about 2 %."""
    butted_l = butted_tube_l(31.8, [(0.9, 100.0), (0.6, 340.0), (0.9, 100.0)], taper_mm=30.0)
    thick_l, thin_l = straight_tube_l(31.8, 0.9, 600.0), straight_tube_l(31.8, 0.6, 600.0)
    assert thick_l < butted_l < thin_l
    assert butted_l / thick_l == pytest.approx(1.025, abs=0.005)


def test_metal_and_bore_fill_the_tube():
    """Metal and bore together are the solid bar."""
    metal_l = tube_metal_g(38.1, 0.9, 600.0, 1.0) * 1e-3
    assert metal_l + straight_tube_l(38.1, 0.9, 600.0) == pytest.approx(math.pi / 4 * 38.1**2 * 600.0 * 1e-6)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: straight_tube_l(20.0, 10.0, 100.0), "wall_mm is 10.0; expected less than half of the outside, 10 mm"),
        (lambda: straight_tube_l(20.0, 0.0, 100.0), "wall_mm"),
        (lambda: straight_tube_l(20.0, 1.0, -1.0), "length_mm"),
        (lambda: tapered_tube_l(0.0, 5.0, 100.0), "bore_start_mm"),
        (lambda: oval_tube_l(20.0, math.nan, 100.0), "narrow_mm"),
        (lambda: butted_tube_l(20.0, []), "zones"),
        (lambda: bent_tube_l(20.0, 1.0, 100.0, [(100.0, 400.0)]), "bend_deg"),
        (lambda: tube_metal_g(20.0, 1.0, 100.0, 0.0), "density_g_per_cm3"),
    ],
)
def test_tubes_that_cannot_be_are_named(call, named):
    """A wall that leaves no bore, no wall, a negative length, a bend past a circle: each is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
