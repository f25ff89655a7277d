"""Figures of JCGM 106:2012, measurement uncertainty in conformity assessment, clauses 7 and 8 (from memory)."""

import pytest

from server.statistics.chance_within import chance_within, proof_factor


@pytest.mark.parametrize(
    ("value", "uncertainty", "low", "high", "printed"),
    [
        pytest.param(509.7, 8.6, 490.0, None, 0.99, id="burst-strength"),
        pytest.param(-5.47, 0.05, None, -5.40, 0.92, id="zener-diode"),
        pytest.param(13.6, 1.8, 12.5, 16.3, 0.66, id="motor-oil"),
    ],
)
def test_chance(value: float, uncertainty: float, low: float | None, high: float | None, printed: float) -> None:
    """The chance that the true value conforms, in three worked examples."""
    assert chance_within(value, low, high, uncertainty) == pytest.approx(printed, abs=0.005)


@pytest.mark.parametrize(
    ("certainty", "printed"), [(0.80, 0.84), (0.90, 1.28), (0.95, 1.64), (0.99, 2.33), (0.999, 3.09)]
)
def test_factor(certainty: float, printed: float) -> None:
    """The table of one-sided factors for five certainties."""
    assert proof_factor(certainty) == pytest.approx(printed, abs=0.006)
