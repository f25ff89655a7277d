"""Figures of Lucas and Crosier, Technometrics 24 (1982) 199, Table 1, as repeated in a public R package (read)."""

import pytest

from server.statistics.run_length import cusum_run_length


@pytest.mark.parametrize(
    ("shift", "printed", "rounding"),
    [
        (0.0, 168, 0.5),
        (0.25, 74.2, 0.05),
        (0.5, 26.6, 0.05),
        (0.75, 13.3, 0.05),
        (1.0, 8.38, 0.005),
        (1.5, 4.75, 0.005),
        (2.0, 3.34, 0.005),
        (2.5, 2.62, 0.005),
        (3.0, 2.19, 0.005),
        (4.0, 1.71, 0.005),
        (5.0, 1.31, 0.005),
    ],
)
def test_run_length(shift: float, printed: float, rounding: float) -> None:
    """Mean run lengths of the two-sided cusum with allowance 0.5 and decision 4."""
    assert cusum_run_length(shift, 0.5, 4.0) == pytest.approx(printed, abs=rounding)
