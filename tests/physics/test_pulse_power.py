"""Power of a pulsed arc against a finely sampled rectangular wave."""

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from server.physics.pulse import pulse_rms
from server.physics.pulse_power import averaging_shortfall_w, pulse_means_product_w, pulse_power_w

PEAK = st.floats(40.0, 250.0)
BASE = st.floats(5.0, 40.0)
DUTY = st.integers(1, 99).map(lambda percent: percent / 100.0)


def wave(peak: float, base: float, duty: float) -> np.ndarray:
    return np.where(np.arange(100) < round(100 * duty), peak, base)


@given(PEAK, BASE, DUTY, st.floats(0.0, 0.05))
def test_product_of_means_falls_short_by_the_identity(peak, base, duty, slope):
    """On a straight arc line the true power is the product of the means plus the shortfall; RMS reads high."""
    amps = wave(peak, base, duty)
    volts = 10.0 + slope * amps
    power_w = float((volts * amps).mean())
    levels = (10.0 + slope * peak, peak, 10.0 + slope * base, base, duty)
    assert pulse_power_w(*levels) == pytest.approx(power_w)
    shown_w = pulse_means_product_w(*levels)
    assert shown_w == pytest.approx(volts.mean() * amps.mean())
    assert shown_w + averaging_shortfall_w(peak, base, duty, slope) == pytest.approx(power_w)
    assume(slope > 0.001)
    assert pulse_rms(levels[0], levels[2], duty) * pulse_rms(peak, base, duty) >= power_w * (1 - 1e-12)
