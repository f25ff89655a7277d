"""Reach of traces and purges: against a bare pass over the same arrays in this run, and within five milliseconds."""

import numpy as np

from server.physics.purge_forecast import forecast_purge
from server.physics.trace_energy import trace_energy
from server.physics.trace_found import TraceFault
from tests.benchmarks.physics_speed import bare_pass, least_of_each, most_extra_bytes, pulsed_minute
from tests.physics.frame_purge import frame

TRACE = pulsed_minute()


def ratio(trace: tuple[np.ndarray, np.ndarray, np.ndarray]) -> float:
    taken = least_of_each({"ours": lambda: trace_energy(*trace), "bare": lambda: bare_pass(*trace)}, rounds=61)
    return taken["ours"] / taken["bare"]


def test_a_minute_at_20_khz():
    """Energy, beads and doubts of a minute at 20 kHz take at most three times one bare vectorised pass."""
    assert len(trace_energy(*TRACE).beads) == 6
    assert ratio(TRACE) <= 3.0


def test_a_minute_full_of_holes():
    """With one reading in 977 not a number, so that nothing can be passed over, it is at most four times."""
    amps = np.where(np.arange(TRACE[1].size) % 977 == 0, np.nan, TRACE[1])
    assert trace_energy(TRACE[0], amps, TRACE[2]).counts[TraceFault.NOT_A_NUMBER] == 1229
    assert ratio((TRACE[0], amps, TRACE[2])) <= 4.0


def test_memory_of_a_minute():
    """The energy of a trace holds at most four arrays of the trace's size beyond the trace at any moment."""
    assert most_extra_bytes(lambda: trace_energy(*TRACE)) <= 4 * TRACE[0].nbytes


def test_nine_members():
    """A purge of nine members with flow, arrivals and a curve of 601 points takes under five milliseconds."""
    network = frame()
    assert len(network.members) == 9
    assert forecast_purge(network, 20.0).after_s.size == 601
    assert least_of_each({"purge": lambda: forecast_purge(network, 20.0)}, rounds=25)["purge"] < 5e-3
