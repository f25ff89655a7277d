"""The two one-sided cumulative sums."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.statistics.cusum import cusum_chart
from server.statistics.errors import UnusableInput


@given(st.lists(st.floats(-20.0, 20.0), min_size=1, max_size=60))
def test_as_the_sum_less_its_lowest(readings: list[float]) -> None:
    """The rising sum equals the plain sum less its lowest so far, the other way of writing it."""
    plain = np.cumsum(np.array(readings) / 2.0 - 0.5)
    expected = plain - np.minimum(0.0, np.minimum.accumulate(plain))
    points = cusum_chart(readings, target=0.0, sigma=2.0).track("up").points
    assert np.allclose(np.array(points, dtype=float), expected, atol=1e-9)


@given(st.lists(st.floats(-20.0, 20.0), min_size=1, max_size=60))
def test_mirror(readings: list[float]) -> None:
    """The falling sum is the rising sum of the mirrored readings."""
    mirrored = cusum_chart([-reading for reading in readings], 0.0, 1.0)
    assert cusum_chart(readings, 0.0, 1.0).track("down").points == mirrored.track("up").points


def test_where_a_drop_began() -> None:
    """A lasting drop signals on the falling sum and is dated to its first reading."""
    chart = cusum_chart([0.1, -0.2, 0.0, -2.0, -2.0, -2.0, -2.0], 0.0, 1.0)
    assert chart.track("down").signals == (6,)
    assert chart.track("down").centre == 0.0
    assert chart.figures == {"down_began_at": 3}


def test_began_with_the_first() -> None:
    """A sum that never was zero began with the first reading."""
    assert cusum_chart([4.0, 4.0], 0.0, 1.0).figures == {"up_began_at": 0}


@pytest.mark.parametrize("bad", [{"sigma": 0.0}, {"sigma": 1.0, "decision": -1.0}])
def test_settings(bad: dict[str, float]) -> None:
    """No spread and a decision below zero are refused."""
    with pytest.raises(UnusableInput):
        cusum_chart([1.0], target=0.0, **bad)
