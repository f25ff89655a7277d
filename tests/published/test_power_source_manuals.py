"""Average-value pulsing as TIG power-source operating manuals print it (read).

Printed: mean 100 A, pulse 170 % (170 A), balance 30 % at 1 Hz (pulse 0.3 s); the base is left for the machine to find.
The 70.0 A follow from the printed definitions.
"""

import pytest

from server.physics.pulse import pulse_base_a, pulse_mean


def test_base_current_of_the_example():
    """The base that makes a mean of 100 A with a pulse of 170 A for 0.3 s in 1 s is 70.0 A."""
    assert pulse_base_a(mean_a=100.0, peak_a=1.70 * 100.0, duty=0.3) == pytest.approx(70.0, rel=1e-3)


def test_mean_of_the_example():
    """170 A for 30 % and 70 A for the rest have the printed mean of 100 A."""
    assert pulse_mean(170.0, 70.0, 0.3) == pytest.approx(100.0, rel=1e-3)
