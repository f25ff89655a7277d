"""Volumes of bent and butted tubes, and the metal in a tube."""

import math

import pytest

from server.physics.errors import UnusableInput
from server.physics.tube_volume import straight_tube_l
from server.physics.tube_volume_shaped import bent_tube_l, butted_tube_l, tube_metal_g


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
        (lambda: butted_tube_l(20.0, []), "zones"),
        (lambda: bent_tube_l(20.0, 1.0, 100.0, [(100.0, 400.0)]), "bend_deg"),
        (lambda: tube_metal_g(20.0, 1.0, 100.0, 0.0), "density_g_per_cm3"),
    ],
)
def test_what_cannot_be_is_named(call, named):
    """No walls at all, a bend past a circle, metal without weight: each is refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
