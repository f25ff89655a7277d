"""How long charts run."""

import numpy as np
import pytest
from scipy.stats import norm

from server.statistics.errors import UnusableInput
from server.statistics.run_length import cusum_run_length, ewma_run_length, ewma_width


def by_cells(shift: float, allowance: float, decision: float, cells: int = 800) -> float:
    """The one-sided cusum's run length by cutting its states into cells, Brook and Evans' way."""
    width = 2.0 * decision / (2.0 * cells - 1.0)
    states = np.arange(cells) * width
    edges = (np.arange(cells) + 0.5) * width
    above = norm.cdf(edges[None, :] - states[:, None] + allowance - shift)
    moves = np.diff(above, axis=1, prepend=0.0)
    return float(np.linalg.solve(np.eye(cells) - moves, np.ones(cells))[0])


@pytest.mark.parametrize(("shift", "allowance", "decision"), [(0.0, 0.5, 4.0), (1.0, 0.5, 5.0), (0.3, 0.25, 6.0)])
def test_another_way(shift: float, allowance: float, decision: float) -> None:
    """Cutting the states into cells gives the same run length to a tenth of a percent."""
    expected = by_cells(shift, allowance, decision)
    assert cusum_run_length(shift, allowance, decision, sides=1) == pytest.approx(expected, rel=1e-3)


def test_weight_one_is_three_sigmas() -> None:
    """An ewma that remembers nothing signals once in 1/(2Φ(−3)) = 370 readings."""
    assert ewma_run_length(0.0, 1.0, 3.0) == pytest.approx(1.0 / (2.0 * norm.cdf(-3.0)), rel=1e-9)


def test_two_sides_signal_sooner() -> None:
    """Steady, two sides signal twice as often as one; shifted, hardly more often."""
    assert cusum_run_length(0.0) == pytest.approx(cusum_run_length(0.0, sides=1) / 2.0)
    assert cusum_run_length(2.0) == pytest.approx(cusum_run_length(2.0, sides=1), rel=1e-4)


def test_width_is_the_inverse() -> None:
    """The width found for a run length gives that run length."""
    assert ewma_run_length(0.0, 0.2, ewma_width(0.2, 370.0)) == pytest.approx(370.0, rel=1e-4)


def test_settings() -> None:
    """Three sides and a weight of nothing are refused."""
    with pytest.raises(UnusableInput, match="sides is 3"):
        cusum_run_length(0.0, sides=3)
    with pytest.raises(UnusableInput, match=r"weight is 0.001"):
        ewma_run_length(0.0, 0.001, 3.0)
