"""How sure an arc energy is."""

import math

import pytest

from server.physics.energy_doubt import arc_energy_doubt, spread_of_bounds
from server.physics.errors import UnusableInput


def test_four_doubts_in_quadrature():
    """Four doubts of 3, 4, 12 and 84 per mille come to 85 per mille: 3-4-5, 5-12-13, 13-84-85."""
    assert arc_energy_doubt(0.003, 0.004, 0.012, 0.084) == pytest.approx(0.085)


def test_nothing_known_of_length():
    """Without length and time the doubt is that of the power alone."""
    assert arc_energy_doubt(0.03, 0.04) == pytest.approx(0.05)


def test_bounds_of_a_rectangle():
    """The spread of even bounds is that of a uniform draw: half width over the root of three."""
    many = [(k + 0.5) / 10_000 * 2.0 - 1.0 for k in range(10_000)]
    assert spread_of_bounds(1.0) == pytest.approx(math.sqrt(sum(x * x for x in many) / len(many)), rel=1e-6)


def test_percent_is_refused():
    """A doubt of 2 instead of 0.02 is refused with the word how to write it."""
    with pytest.raises(UnusableInput, match=r"volts is 2.*2 % is 0.02"):
        arc_energy_doubt(2, 0.025)
