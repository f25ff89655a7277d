"""Fast and slow traces of a pulse."""

import numpy as np
import pytest

from server.physics.errors import UnusableInput
from server.physics.pulse_power import averaging_shortfall_w
from server.physics.trace_energy import trace_energy
from server.physics.trace_sampling import judge_sampling

PULSE_HZ = 2.0
SHORTFALL_W = averaging_shortfall_w(120.0, 30.0, 0.4, 0.04)


def pulsed(hz: float, seconds: float = 60.0):
    time_s = np.arange(round(hz * seconds)) / hz
    amps = np.where((time_s * PULSE_HZ) % 1.0 < 0.4 - 1e-9, 120.0, 30.0)
    return time_s, amps, 10.0 + 0.04 * amps


def averaged_each_second():
    """What a logger stores that averages volts and amps apart over each second of the pulse."""
    _, amps, volts = (column.reshape(60, -1).mean(axis=1) for column in pulsed(1000.0))
    return np.arange(60.0), amps, volts


def test_a_fast_trace_stands_as_it_is():
    """A trace of 20 samples a pulse or more is instantaneous and unchanged, and within 1 % of the true energy."""
    found = trace_energy(*pulsed(40.0))
    judged = judge_sampling(found.whole, found.sample_hz, PULSE_HZ, SHORTFALL_W)
    assert (judged.method, judged.energy_j) == ("instantaneous", found.whole.energy_j)
    assert judged.energy_j == pytest.approx(912.0 * found.whole.arc_s, rel=0.01)


def test_averaged_apart_and_corrected():
    """Averages taken apart read 8.5 % low; with peak, base, on-time and slope known they come back to 0.1 %."""
    found = trace_energy(*averaged_each_second())
    true_j = 912.0 * found.whole.arc_s
    assert found.whole.energy_j == pytest.approx(true_j * (1.0 - 0.0853), rel=1e-3)
    judged = judge_sampling(found.whole, found.sample_hz, PULSE_HZ, SHORTFALL_W)
    assert judged.method == "averaged, corrected"
    assert judged.energy_j == pytest.approx(true_j, rel=1e-3)


def test_averaged_and_nothing_known():
    """A slow trace of an unknown pulse is averaged, and its energy is left alone."""
    found = trace_energy(*averaged_each_second())
    judged = judge_sampling(found.whole, found.sample_hz, PULSE_HZ)
    assert (judged.method, judged.energy_j) == ("averaged", found.whole.energy_j)


def test_an_arc_without_pulsing():
    """Without pulsing any rate is fast enough."""
    found = trace_energy(*averaged_each_second())
    assert judge_sampling(found.whole, found.sample_hz, 0.0).method == "instantaneous"


def test_the_boundary():
    """Twenty samples a pulse are enough, a hair less is not."""
    whole = trace_energy(*pulsed(100.0)).whole
    assert judge_sampling(whole, 40.0, PULSE_HZ).method == "instantaneous"
    assert judge_sampling(whole, 39.999, PULSE_HZ).method == "averaged"


@pytest.mark.parametrize(("hz", "pulse_hz", "named"), [(0.0, 2.0, "sample_hz"), (10.0, -1.0, "pulse_hz")])
def test_rates_that_cannot_be(hz, pulse_hz, named):
    """A sampling rate of zero and a pulse below zero are refused by name."""
    with pytest.raises(UnusableInput, match=named):
        judge_sampling(trace_energy(*pulsed(100.0)).whole, hz, pulse_hz)
