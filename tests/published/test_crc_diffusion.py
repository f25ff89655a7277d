"""Diffusion of oxygen in argon, CRC Handbook of Chemistry and Physics, table of gas diffusion coefficients (read).

Printed: 0.166 cm²/s at 273 K and 0.187 cm²/s at 293 K; another edition prints 0.189 for 293 K.
"""

import pytest

from server.physics.argon import oxygen_in_argon_m2_per_s


def test_at_twenty_degrees():
    """At 293.15 K the coefficient is the printed 0.187 cm²/s, within what the editions differ by."""
    assert oxygen_in_argon_m2_per_s(20.0) * 1e4 == pytest.approx(0.187, abs=0.003)
    assert oxygen_in_argon_m2_per_s(20.0) * 1e4 == pytest.approx(0.189, abs=0.003)


def test_at_freezing():
    """At 273 K it is the printed 0.166 cm²/s."""
    assert oxygen_in_argon_m2_per_s(0.0) * 1e4 == pytest.approx(0.166, abs=0.001)
