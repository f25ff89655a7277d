"""What a description of a purge may not be."""

import math

import pytest

from server.physics.errors import UnusableInput
from server.physics.purge_network import GasInlet, PurgeHole, PurgeMember, PurgeNetwork

TUBE = PurgeMember("tube", 0.5, 500.0)
STAY = PurgeMember("stay", 0.1, 400.0)
VENT = PurgeHole("tube", None, 5.0)
INLET = GasInlet("tube", 10.0)


@pytest.mark.parametrize(
    ("parts", "named"),
    [
        (((), (VENT,), (INLET,)), "members"),
        (((TUBE, TUBE), (VENT,), (INLET,)), "members"),
        (((TUBE,), (VENT,), ()), "inlets"),
        (((TUBE,), (PurgeHole("stay", None, 5.0),), (INLET,)), "member is 'stay'; expected one of tube"),
        (((TUBE,), (PurgeHole("tube", "stay", 5.0),), (INLET,)), "into is 'stay'"),
        (((TUBE,), (PurgeHole("tube", "tube", 5.0),), (INLET,)), "another member than the hole's own"),
        (((TUBE,), (VENT,), (GasInlet("stay", 10.0),)), "member is 'stay'"),
        (((TUBE,), (PurgeHole("tube", None, 0.0),), (INLET,)), "tube: diameter_mm"),
        (((TUBE,), (PurgeHole("tube", None, 5.0, -1.0),), (INLET,)), "tube: wall_mm"),
        (((PurgeMember("tube", 0.0, 500.0),), (VENT,), (INLET,)), "tube: volume_l"),
        (((PurgeMember("tube", 0.5, math.nan),), (VENT,), (INLET,)), "tube: length_mm"),
        (((PurgeMember("tube", 0.5, 500.0, -1.0),), (VENT,), (INLET,)), "tube: leak_ml_per_min"),
        (((TUBE,), (VENT,), (GasInlet("tube", 0.0),)), "tube: flow_l_per_min"),
        (((TUBE,), (VENT,), (GasInlet("tube", 10.0, -1.0),)), "tube: oxygen_ppm"),
    ],
)
def test_purges_that_cannot_be_are_named(parts, named):
    """No member, no inlet, a name that is not there, a size of nothing: each is refused by name when described."""
    with pytest.raises(UnusableInput, match=named):
        PurgeNetwork(*parts)
