"""Exact Poisson intervals printed on public pages: a count-interval help page, the epitools documentation and an open
calculator page (all read)."""

import pytest

from server.statistics.count_interval import count_interval


@pytest.mark.parametrize(
    ("count", "confidence", "low", "high"),
    [
        (25, 0.90, 17.38, 34.92),
        (25, 0.95, 16.18, 36.90),
        (25, 0.99, 14.00, 41.00),
        (0, 0.95, 0.0, 3.689),
        (10, 0.95, 4.80, 18.39),
    ],
)
def test_interval(count: int, confidence: float, low: float, high: float) -> None:
    """The interval of the expected count behind a count."""
    found = count_interval(count, confidence=confidence)
    assert found.low == pytest.approx(low, abs=0.006)
    assert found.high == pytest.approx(high, abs=0.006)
