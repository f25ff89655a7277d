"""How gas divides among holes."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.physics.purge_flow import settle_flow
from server.physics.purge_hole import hole_pressure_pa
from server.physics.purge_network import GasInlet, PurgeHole, PurgeMember, PurgeNetwork
from tests.physics.frame_purge import STAYS, frame


@given(st.sets(st.sampled_from(STAYS)), st.floats(0.5, 40.0), st.floats(0.0, 20.0), st.floats(1.0, 8.0))
def test_what_enters_leaves_and_each_hole_has_its_pressure(closed, flow, leak, hole_mm):
    """At every member inflow and outflow agree, and every hole drops the pressure its flow needs, loops included."""
    network = frame(closed, leak, flow, hole_mm=hole_mm)
    settled = settle_flow(network)
    balance = dict.fromkeys(settled.pressure_pa, 0.0)
    balance["shell"] += flow / 60e3
    balance["head tube"] += leak / 60e6
    for hole, rate in zip(network.holes, settled.hole_m3_per_s, strict=True):
        balance[hole.member] -= rate
        drop = settled.pressure_pa[hole.member] - (settled.pressure_pa[hole.into] if hole.into else 0.0)
        if hole.into:
            balance[hole.into] += rate
        needed = np.sign(rate) * hole_pressure_pa(abs(rate) * 60e3, hole.diameter_mm)
        assert drop == pytest.approx(needed, rel=1e-4, abs=1e-5 * settled.pressure_pa["shell"])
    assert max(map(abs, balance.values())) < 1e-8 * flow / 60e3


@given(st.data())
def test_the_balance_holds_for_any_holes(data):
    """However the members hang together, and for holes from half a millimetre to thirty, no gas is lost or made."""
    count = data.draw(st.integers(1, 10))
    size = st.floats(0.5, 30.0)
    members = tuple(PurgeMember(str(at), 0.1, 300.0) for at in range(count))
    tree = [PurgeHole(str(at), str(data.draw(st.integers(0, at - 1))), data.draw(size)) for at in range(1, count)]
    place = st.integers(0, count - 1)
    loops = [
        PurgeHole(str(a), str(b), s)
        for a, b, s in data.draw(st.lists(st.tuples(place, place, size), max_size=4))
        if a != b
    ]
    vents = [
        PurgeHole(str(at), None, s) for at, s in data.draw(st.lists(st.tuples(place, size), min_size=1, max_size=3))
    ]
    network = PurgeNetwork(members, (*tree, *loops, *vents), (GasInlet("0", 10.0),))
    settled = settle_flow(network)
    balance = np.zeros(count)
    balance[0] = 10.0 / 60e3
    for hole, rate in zip(network.holes, settled.hole_m3_per_s, strict=True):
        balance[int(hole.member)] -= rate
        if hole.into:
            balance[int(hole.into)] += rate
    assert np.abs(balance).max() < 1e-8 * 10.0 / 60e3


def test_two_equal_vents_share_alike():
    """Two vents of one size let half of the gas out each."""
    tube = PurgeNetwork(
        (PurgeMember("tube", 1.0, 500.0),), (PurgeHole("tube", None, 4.0),) * 2, (GasInlet("tube", 6.0),)
    )
    assert settle_flow(tube).hole_m3_per_s == pytest.approx((0.5e-4, 0.5e-4))


def test_a_dead_end_has_no_flow():
    """A stay closed at its far end takes no flow and has the pressure of what it opens into."""
    network = frame(("left chainstay",))
    settled = settle_flow(network)
    inward = settled.hole_m3_per_s[
        [(hole.member, hole.into) for hole in network.holes].index(("shell", "left chainstay"))
    ]
    assert inward == 0.0
    assert settled.pressure_pa["left chainstay"] == pytest.approx(settled.pressure_pa["shell"], rel=1e-6)
