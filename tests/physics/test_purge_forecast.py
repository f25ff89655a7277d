"""A whole purge: against one volume, against small steps in time, and what a forgotten hole or a leak does."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from server.physics.dead_end import dead_end_share
from server.physics.errors import UnusableInput
from server.physics.purge_cells import part_into_cells
from server.physics.purge_flow import settle_flow
from server.physics.purge_forecast import forecast_purge
from server.physics.purge_network import GasInlet, PurgeHole, PurgeMember, PurgeNetwork
from server.physics.purge_single import AIR_OXYGEN_PPM, OneVolume, purge_changes, purge_oxygen_ppm
from tests.physics.frame_purge import STAYS, TUBES, frame


def wait(clear_s: float | None) -> float:
    return np.inf if clear_s is None else clear_s


def test_one_member_is_one_volume():
    """A single member follows the one-volume formula, floor, curve and time to the target."""
    tube = PurgeNetwork(
        (PurgeMember("tube", 2.0, 900.0, 0.9),), (PurgeHole("tube", None, 5.0),), (GasInlet("tube", 10.0, 5.0),)
    )
    found, one = forecast_purge(tube, 30.0), OneVolume(2.0, 10.0, 5.0, 0.9)
    assert found.oxygen_ppm["tube"][[0, 60, 600]] == pytest.approx(
        [purge_oxygen_ppm(one, s) for s in (0.0, 60.0, 600.0)]
    )
    assert found.clear_s["tube"] == pytest.approx(purge_changes(one, 30.0) / one.changes_per_s, abs=0.03)


@pytest.mark.parametrize("closed", [(), ("left chainstay",), tuple(STAYS)])
def test_curve_as_by_small_steps(closed):
    """The exponential's curve is that of many small implicit steps through the same exchange."""
    network = frame(closed)
    found = forecast_purge(network, 20.0, until_s=120.0, points=7, dead_end_cells=6)
    cells = part_into_cells(network, settle_flow(network), 6)
    half = 120.0 / 60_000 / 2.0 * cells.rate_per_s
    same = np.eye(len(half))
    step = np.linalg.solve(same - half, same + half)
    gain = np.linalg.solve(same - half, 120.0 / 60_000 * cells.source_ppm_per_s)
    oxygen = np.full(len(half), AIR_OXYGEN_PPM)
    for _ in range(60_000):
        oxygen = step @ oxygen + gain
    for name, own in cells.cells.items():
        assert found.oxygen_ppm[name][-1] == pytest.approx(oxygen[own.start : own.stop].max(), rel=1e-4)


@settings(max_examples=50)
@given(st.floats(0.0, 50.0), st.floats(1.0, 30.0), st.floats(0.0, 15.0), st.sets(st.sampled_from(STAYS)))
def test_never_under_the_floor_and_never_rising(leak, flow, gas_ppm, closed):
    """Oxygen of every member falls all the time, stays above its floor, and no floor lies under the gas."""
    found = forecast_purge(frame(closed, leak, flow, gas_ppm), 20.0, until_s=3600.0, points=50)
    for name, curve in found.oxygen_ppm.items():
        assert found.floor_ppm[name] >= gas_ppm - 1e-6
        assert (curve >= found.floor_ppm[name] - 1e-5).all()
        assert (np.diff(curve) <= 1e-5).all()


@settings(max_examples=30)
@given(st.sampled_from([10.0, 20.0, 50.0, 1000.0]), st.sets(st.sampled_from(STAYS)))
def test_clear_when_the_curve_says_so(target, closed):
    """A member is clear at the moment its curve crosses the target, and not a step before."""
    found = forecast_purge(frame(closed), target, until_s=1800.0, points=1801)
    for name, at_s in found.clear_s.items():
        curve = found.oxygen_ppm[name]
        if at_s is not None and at_s < 1800.0:
            assert curve[int(at_s)] > target * (1 - 1e-3) >= curve[int(at_s) + 1] * (1 - 2e-3)


def test_air_stays_air():
    """A purge with air in place of gas never changes anything: exchange, leak and back flow lose no oxygen."""
    found = forecast_purge(frame(("left chainstay",), leak_ml_per_min=3.0, oxygen_ppm=AIR_OXYGEN_PPM), 20.0)
    assert max(abs(curve - AIR_OXYGEN_PPM).max() for curve in found.oxygen_ppm.values()) < 1e-3
    assert set(found.clear_s.values()) == {None}


def test_the_slowest_is_named():
    """With all ends vented every member is clear within minutes and the last one to be so is named."""
    found = forecast_purge(frame(), 20.0)
    assert found.dead_ends == ()
    assert max(map(wait, found.clear_s.values())) == wait(found.clear_s[found.slowest]) < 600.0


def test_a_closed_stay_holds_up_the_frame():
    """One stay closed at its far end takes hours, is named, and bleeds oxygen into all others for half an hour."""
    vented, closed = forecast_purge(frame(), 20.0), forecast_purge(frame(("left chainstay",)), 20.0)
    assert (closed.slowest, closed.dead_ends) == ("left chainstay", ("left chainstay",))
    assert wait(closed.clear_s["left chainstay"]) > 6 * 3600.0
    for name in TUBES:
        assert wait(closed.clear_s[name]) > 1800.0 > wait(vented.clear_s[name])


def test_a_leak_sets_a_floor_that_is_named():
    """3 mL/min of air at the head tube keep it over the target for good, and all that lies behind it."""
    found = forecast_purge(frame(leak_ml_per_min=3.0), 20.0)
    assert found.clear_s["head tube"] is None
    assert found.floor_ppm["head tube"] > 100.0 > 20.0 > found.floor_ppm["shell"]
    assert found.slowest in {"head tube", "top tube"}


def test_a_dead_end_is_diffusion_in_a_rod():
    """A dead end whose mouth holds nothing back, off a well swept part, empties as the diffusion series says."""
    wide = PurgeHole("part", "stay", 200.0, wall_mm=0.0)
    members = (PurgeMember("part", 0.02, 20.0), PurgeMember("stay", 0.1257, 400.0))
    swept = PurgeNetwork(members, (wide, PurgeHole("part", None, 20.0)), (GasInlet("part", 60.0),))
    cells = part_into_cells(swept, settle_flow(swept), 40)
    found = forecast_purge(swept, 20.0, until_s=7200.0, points=3, dead_end_cells=40)
    assert len(cells.cells["stay"]) == 40
    # The far end holds π/2 of the average once only the slowest wave is left.
    series_ppm = AIR_OXYGEN_PPM * dead_end_share(0.4, 7200.0) * np.pi / 2.0
    assert found.oxygen_ppm["stay"][-1] == pytest.approx(series_ppm, rel=0.02)


def test_five_cells_are_near_many():
    """Five cells in a dead end say nearly what forty say about the part it bleeds into."""
    few, many = (forecast_purge(frame(("left chainstay",)), 20.0, dead_end_cells=n) for n in (5, 40))
    for minutes in (2, 5, 10):
        assert few.oxygen_ppm["shell"][60 * minutes] == pytest.approx(many.oxygen_ppm["shell"][60 * minutes], rel=0.2)


def test_fewer_cells_are_refused():
    """Fewer than five cells in a dead end are refused, with the reason."""
    with pytest.raises(UnusableInput, match=r"dead_end_cells is 4.*factor of two"):
        forecast_purge(frame(), 20.0, dead_end_cells=4)


@pytest.mark.parametrize(
    ("asked", "named"),
    [({"target_ppm": -1.0}, "target_ppm"), ({"until_s": 0.0}, "until_s"), ({"points": 1}, "points")],
)
def test_questions_that_cannot_be_are_named(asked, named):
    """A target below zero, no time and a curve of one point are refused by name."""
    with pytest.raises(UnusableInput, match=named):
        forecast_purge(frame(), **{"target_ppm": 20.0, **asked})
