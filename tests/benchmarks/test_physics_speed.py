"""Reach of traces and purges: against a bare pass over the same arrays, and bare steps of a curve, in this run."""

import numpy as np

from server.physics.purge_forecast import forecast_purge
from server.physics.trace_energy import trace_energy
from server.physics.trace_found import TraceFault
from tests.benchmarks.physics_speed import bare_curve, bare_pass, most_extra_bytes, pulsed_minute
from tests.benchmarks.turns import multiple
from tests.physics.frame_purge import frame

TRACE = pulsed_minute()


def ratio(trace: tuple[np.ndarray, np.ndarray, np.ndarray], most: float) -> float:
    return multiple(lambda: trace_energy(*trace), lambda: bare_pass(*trace), most, rounds=21)


def test_a_minute_at_20_khz():
    """Energy, beads and doubts of a minute at 20 kHz take at most three times one bare vectorised pass."""
    assert len(trace_energy(*TRACE).beads) == 6
    assert ratio(TRACE, 3.0) <= 3.0


def test_a_minute_full_of_holes():
    """With one reading in 977 not a number, so that nothing can be passed over, it is at most four times."""
    amps = np.where(np.arange(TRACE[1].size) % 977 == 0, np.nan, TRACE[1])
    assert trace_energy(TRACE[0], amps, TRACE[2]).counts[TraceFault.NOT_A_NUMBER] == 1229
    assert ratio((TRACE[0], amps, TRACE[2]), 4.0) <= 4.0


def test_memory_of_a_minute():
    """The energy of a trace holds at most four arrays of the trace's size beyond the trace at any moment."""
    assert most_extra_bytes(lambda: trace_energy(*TRACE)) <= 4 * TRACE[0].nbytes


def test_nine_members():
    """A purge of nine members with flow, arrivals and a curve of 601 points takes at most seven bare curves."""
    network = frame()
    assert len(network.members) == 9
    assert forecast_purge(network, 20.0).after_s.size == 601
    assert multiple(lambda: forecast_purge(network, 20.0), bare_curve, 7.0, rounds=25) <= 7.0
