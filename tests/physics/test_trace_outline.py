"""The outline of a column: nothing seen lies outside it, it is short, and what is no number is left out."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.physics.errors import UnusableInput
from server.physics.trace_outline import trace_outline


@given(st.lists(st.floats(-1e3, 1e3), min_size=1, max_size=200), st.integers(1, 50))
def test_the_extremes_are_kept(readings: list[float], steps: int) -> None:
    """However long the column, the outline has at most so many stretches and keeps its lowest and highest reading."""
    found = trace_outline(np.arange(float(len(readings))), np.array(readings), steps)
    assert 1 <= len(found) <= steps
    assert (min(step.low for step in found), max(step.high for step in found)) == (min(readings), max(readings))
    assert all(step.low <= step.high for step in found)


def test_what_is_no_number_is_left_out() -> None:
    """A stretch without a number is missing, and an infinity does not become its extreme."""
    readings = np.array([1.0, 2.0, np.nan, np.nan, np.inf, 5.0])
    assert trace_outline(np.arange(6.0), readings, 3) == ((0.0, 1.0, 2.0), (4.0, 5.0, 5.0))


def test_columns_that_do_not_match_are_refused() -> None:
    """Times and readings of different length, or none at all, are refused by name."""
    with pytest.raises(UnusableInput, match="one length"):
        trace_outline(np.arange(3.0), np.arange(4.0))
    with pytest.raises(UnusableInput, match="one length"):
        trace_outline(np.array([]), np.array([]))
