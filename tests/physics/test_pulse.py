"""Pulse arithmetic against a finely sampled rectangular wave."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.physics.errors import UnusableInput
from server.physics.pulse import pulse_base_a, pulse_mean, pulse_rms

PEAK = st.floats(40.0, 250.0)
BASE = st.floats(5.0, 40.0)
DUTY = st.integers(1, 99).map(lambda percent: percent / 100.0)


def wave(peak: float, base: float, duty: float) -> np.ndarray:
    return np.where(np.arange(100) < round(100 * duty), peak, base)


@given(PEAK, BASE, DUTY)
def test_mean_and_rms_of_a_wave(peak, base, duty):
    """Mean and RMS are those of a hundred samples of one period."""
    samples = wave(peak, base, duty)
    assert pulse_mean(peak, base, duty) == pytest.approx(samples.mean())
    assert pulse_rms(peak, base, duty) == pytest.approx(np.sqrt((samples**2).mean()))


@given(PEAK, BASE, DUTY)
def test_base_from_mean(peak, base, duty):
    """The base current that gives a mean is the one the mean was made of."""
    assert pulse_base_a(pulse_mean(peak, base, duty), peak, duty) == pytest.approx(base, abs=1e-6)


def test_a_peak_too_large_for_its_mean():
    """A mean that the peak alone exceeds would need a negative base, and is refused with what would do."""
    with pytest.raises(UnusableInput, match=r"mean_a is 50.0; expected at least 102 A"):
        pulse_base_a(mean_a=50.0, peak_a=170.0, duty=0.6)


@pytest.mark.parametrize("duty", [-0.1, 1.1, 40.0])
def test_duty_in_percent_is_refused(duty):
    """An on-time outside 0 to 1 is refused with the word how to write it."""
    with pytest.raises(UnusableInput, match=r"40 % as 0.4"):
        pulse_mean(100.0, 20.0, duty)
