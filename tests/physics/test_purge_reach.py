"""Members that gas cannot reach, and purges it cannot leave."""

import pytest

from server.physics.errors import SealedPurge, UnreachableMember
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
