"""What a description of a purge may not be, and members that gas cannot reach."""

import math

import pytest

from server.physics.errors import SealedPurge, UnreachableMember, UnusableInput
from server.physics.purge_forecast import forecast_purge
from server.physics.purge_network import GasInlet, PurgeHole, PurgeMember, PurgeNetwork
from tests.physics.frame_purge import STAYS, frame

TUBE = PurgeMember("tube", 0.5, 500.0)
STAY = PurgeMember("stay", 0.1, 400.0)
VENT = PurgeHole("tube", None, 5.0)
INLET = GasInlet("tube", 10.0)


def test_a_member_without_a_hole_is_named():
    """Members that no hole joins to the inlet are named, all of them, before anything is computed."""
    network = frame(without=[("shell", "left chainstay"), ("seat tube", "left seatstay")])
    with pytest.raises(UnreachableMember, match=r"left chainstay, left seatstay.*Drill or open its hole"):
        forecast_purge(network, 20.0)


def test_a_member_reached_only_from_its_vent_is_named():
    """A vent to the air is no way for the gas: the other tube is unreachable though both have vents."""
    network = PurgeNetwork((TUBE, STAY), (VENT, PurgeHole("stay", None, 3.0)), (INLET,))
    with pytest.raises(UnreachableMember, match="members is 'stay'"):
        forecast_purge(network, 20.0)


def test_a_sealed_purge_is_named():
    """A purge with every vent closed is refused, naming where the gas comes in and what to do."""
    with pytest.raises(SealedPurge, match=r"holes is 'shell'; expected a vent.*Open a vent"):
        forecast_purge(frame(["head tube", "seat tube", *STAYS]), 20.0)


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
