"""Count, mean and spread."""

import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.statistics.summary import summarise


@given(st.lists(st.floats(-1e6, 1e6), min_size=2, max_size=50))
def test_as_the_standard_library(readings: list[float]) -> None:
    """Mean and standard deviation are those of Python's exact fractions."""
    found = summarise(readings)
    assert found.mean == pytest.approx(statistics.fmean(readings), rel=1e-12, abs=1e-9)
    assert found.sd == pytest.approx(statistics.stdev(readings), rel=1e-9, abs=1e-9)


def test_one_reading() -> None:
    """One reading has a mean and no spread."""
    assert (summarise([4.0]).mean, summarise([4.0]).sd) == (4.0, None)
