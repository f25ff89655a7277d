"""Pressure behind a hole, and the warning it gives."""

import math

import pytest

from server.physics.errors import UnusableInput
from server.physics.purge_hole import blow_through_warning, hole_pressure_pa, pool_strength_pa


def test_bernoulli_at_one_hole():
    """The pressure speeds argon up to flow over 0.61 of the hole: 10 L/min through 5 mm make 13.9 m/s and 161 Pa."""
    speed = 10.0 / 60e3 / (0.61 * math.pi * 0.0025**2)
    assert hole_pressure_pa(10.0, 5.0) == pytest.approx(0.5 * 1.661 * speed**2, rel=1e-3)


def test_half_the_hole_is_sixteen_times_the_pressure():
    """Halving a hole takes sixteen times the pressure, halving the flow a quarter, four holes a sixteenth."""
    one = hole_pressure_pa(10.0, 5.0)
    assert hole_pressure_pa(10.0, 2.5) == pytest.approx(16.0 * one)
    assert hole_pressure_pa(5.0, 5.0) == pytest.approx(one / 4.0)
    assert hole_pressure_pa(10.0, 5.0, holes=4) == pytest.approx(one / 16.0)


def test_the_warning_comes_above_its_figure():
    """At 300 Pa there is no warning, just above there is, with both pressures and what to do."""
    assert blow_through_warning(300.0) is None
    said = blow_through_warning(1242.0)
    assert said is not None
    assert "1242 Pa, above 300 Pa" in said
    assert "Turn the purge down" in said


def test_a_wide_pool_holds_less():
    """A pool of twice the width holds half the pressure."""
    assert pool_strength_pa(8.0) == pytest.approx(pool_strength_pa(4.0) / 2.0)


@pytest.mark.parametrize(
    ("call", "named"),
    [
        (lambda: hole_pressure_pa(10.0, 0.0), "hole_mm"),
        (lambda: hole_pressure_pa(-1.0, 5.0), "flow_l_per_min"),
        (lambda: hole_pressure_pa(10.0, 5.0, holes=0), "holes"),
        (lambda: blow_through_warning(math.nan), "pressure_pa"),
    ],
)
def test_what_cannot_be_is_named(call, named):
    """A hole of nothing, a flow below zero, a pressure that is no number, less than absolute zero: refused by name."""
    with pytest.raises(UnusableInput, match=named):
        call()
