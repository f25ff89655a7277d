"""Figures of Montgomery, Introduction to Statistical Quality Control.

Read: Table 9.2, as quoted in public test suites. From memory: the two run lengths that book gives for its charts.
"""

import pytest

from server.statistics.cusum import cusum_chart
from server.statistics.run_length import cusum_run_length, ewma_run_length

READINGS = [
    9.45, 7.99, 9.29, 11.66, 12.16, 10.18, 8.04, 11.46, 9.20, 10.34, 9.03, 11.47, 10.51, 9.40, 10.08,
    9.37, 10.62, 10.31, 8.52, 10.84, 10.90, 9.33, 12.29, 11.50, 10.60, 11.08, 10.38, 11.62, 11.31, 10.52,
]  # fmt: skip
UPPER = [
    0, 0, 0, 1.16, 2.82, 2.50, 0.04, 1.00, 0, 0, 0, 0.97, 0.98, 0, 0,
    0, 0.12, 0, 0, 0.34, 0.74, 0, 1.79, 2.79, 2.89, 3.47, 3.35, 4.47, 5.28, 5.30,
]  # fmt: skip


@pytest.mark.parametrize(("place", "printed"), [*enumerate(UPPER)])
def test_upper_sum(place: int, printed: float) -> None:
    """Table 9.2: each of the thirty upper sums with target 10, sigma 1 and allowance 0.5 (read)."""
    assert cusum_chart(READINGS, 10.0, 1.0).track("up").points[place] == pytest.approx(printed, abs=0.006)


def test_signal() -> None:
    """Table 9.2: with decision 5 the first signal is at reading 29, the sum then having run for 7 readings (read)."""
    chart = cusum_chart(READINGS, 10.0, 1.0)
    first = chart.track("up").signals[0]
    assert first + 1 == 29
    assert first - chart.figures["up_began_at"] + 1 == 7
    assert chart.track("down").signals == ()


def test_run_lengths() -> None:
    """A steady two-sided cusum (0.5, 5) runs for 465 readings, an ewma (0.1, 2.814) for 500 (from memory)."""
    assert cusum_run_length(0.0, 0.5, 5.0) == pytest.approx(465, abs=0.5)
    assert ewma_run_length(0.0, 0.1, 2.814) == pytest.approx(500, abs=0.5)
