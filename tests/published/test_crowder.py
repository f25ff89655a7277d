"""Figures of Crowder, Journal of Quality Technology 21 (1989) 155, as repeated in a public R package (read)."""

import pytest

from server.statistics.run_length import ewma_width


@pytest.mark.parametrize(("weight", "printed"), [(0.05, 2.32), (0.10, 2.55), (0.15, 2.65), (0.20, 2.72), (0.25, 2.76)])
def test_width(weight: float, printed: float) -> None:
    """The width at which a steady ewma chart signals falsely once in 250 readings."""
    assert ewma_width(weight, 250.0) == pytest.approx(printed, abs=0.006)
