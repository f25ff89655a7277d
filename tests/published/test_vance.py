"""Figures of Vance, Journal of Quality Technology 18 (1986) 189, as repeated in a public R package (read).

The first is printed 0.06 lower than the converged solution (2071.57), 3 parts in 100,000; the others agree as printed.
"""

import pytest

from server.statistics.run_length import cusum_run_length


@pytest.mark.parametrize(
    ("shift", "printed", "rounding"),
    [
        (-0.25, 2071.51, 0.07),
        (-0.125, 400.28, 0.01),
        (0.0, 124.66, 0.01),
        (0.125, 59.30, 0.01),
        (0.25, 36.71, 0.01),
        (0.5, 20.37, 0.01),
        (0.75, 14.06, 0.01),
        (1.0, 10.75, 0.01),
    ],
)
def test_run_length(shift: float, printed: float, rounding: float) -> None:
    """Mean run lengths of the one-sided cusum with no allowance and decision 10."""
    assert cusum_run_length(shift, 0.0, 10.0, sides=1) == pytest.approx(printed, abs=rounding)
