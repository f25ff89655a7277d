"""Intervals of capability printed in articles: Quality Digest, May 2000 (read); a second pair from memory."""

import pytest

from server.statistics.capability import cpk_interval


@pytest.mark.parametrize(
    ("cpk", "count", "low", "high"),
    [
        pytest.param(1.15, 45, 0.89, 1.41, id="quality-digest-read"),
        pytest.param(1.33, 20, 0.88, 1.78, id="from-memory"),
    ],
)
def test_interval(cpk: float, count: int, low: float, high: float) -> None:
    """The 95 % interval of a Cpk from so many readings."""
    found = cpk_interval(cpk, count)
    assert found.low == pytest.approx(low, abs=0.006)
    assert found.high == pytest.approx(high, abs=0.006)
