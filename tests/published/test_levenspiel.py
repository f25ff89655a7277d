"""Equal stirred tanks in series, Levenspiel, Chemical Reaction Engineering, 3rd ed., p. 327.

The formula was read as quoted in an open library's documentation: F = 1 − exp(−Nθ) Σ (Nθ)^i / i!, i from 0 to N − 1.
"""

import math

import pytest

from server.physics.purge_forecast import forecast_purge
from server.physics.purge_network import GasInlet, PurgeHole, PurgeMember, PurgeNetwork
from server.physics.purge_single import AIR_OXYGEN_PPM


def share_replaced(tanks: int, changes: float) -> float:
    """Share of the last tank's air that the gas has replaced after so many volume changes of all tanks together."""
    members = tuple(PurgeMember(str(at), 0.1, 100.0) for at in range(tanks))
    holes = tuple(PurgeHole(str(at), str(at + 1) if at + 1 < tanks else None, 5.0) for at in range(tanks))
    network = PurgeNetwork(members, holes, (GasInlet("0", 6.0),))
    until_s = changes * 0.1 * tanks / (6.0 / 60.0)
    last = forecast_purge(network, 20.0, until_s=until_s, points=2).oxygen_ppm[str(tanks - 1)][-1]
    return 1.0 - last / AIR_OXYGEN_PPM


def test_three_tanks_after_one_change():
    """Three tanks after one volume change: F = 0.5768."""
    assert share_replaced(3, 1.0) == pytest.approx(0.5768, abs=1e-4)


@pytest.mark.parametrize("tanks", range(1, 9))
@pytest.mark.parametrize("changes", [0.25, 1.0, 2.5])
def test_the_quoted_formula(tanks, changes):
    """One to eight tanks follow the quoted formula, early and late."""
    spent = tanks * changes
    formula = 1.0 - math.exp(-spent) * sum(spent**i / math.factorial(i) for i in range(tanks))
    assert share_replaced(tanks, changes) == pytest.approx(formula, abs=1e-9)
