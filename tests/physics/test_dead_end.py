"""A dead end against diffusion followed cell by cell."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from server.physics.argon import oxygen_in_argon_m2_per_s
from server.physics.dead_end import dead_end_s, dead_end_share
from server.physics.errors import UnusableInput


def share_by_cells(length_m: float, after_s: float, cells: int = 200) -> float:
    """Mean share left in a rod of many cells, one end kept at nothing, stepped implicitly in time."""
    width = length_m / cells
    spread = oxygen_in_argon_m2_per_s() / width**2
    rate = spread * (np.eye(cells, k=1) + np.eye(cells, k=-1) - 2.0 * np.eye(cells))
    rate[0, 0] -= spread
    rate[-1, -1] += spread
    steps = 2000
    half = after_s / steps / 2.0 * rate
    step = np.linalg.solve(np.eye(cells) - half, np.eye(cells) + half)
    return float((np.linalg.matrix_power(step, steps) @ np.ones(cells)).mean())


@pytest.mark.parametrize("after_s", [60.0, 600.0, 3600.0, 7200.0])
def test_share_left_as_by_cells(after_s):
    """The series gives the share that two hundred cells give, early and late."""
    assert dead_end_share(0.41, after_s) == pytest.approx(share_by_cells(0.41, after_s), abs=2e-3)


@given(st.floats(0.05, 1.0), st.floats(0.001, 0.99))
def test_the_time_to_a_share_leads_there(length_m, share):
    """After the time that a target takes, the share left is the target's."""
    seconds = dead_end_s(length_m, 200_000.0, 200_000.0 * share)
    assert dead_end_share(length_m, seconds) == pytest.approx(share, rel=1e-4)


@given(st.floats(0.05, 0.5), st.floats(0.0, 50_000.0), st.floats(1.0, 10_000.0))
def test_it_only_ever_falls(length_m, after_s, more_s):
    """A dead end never gains oxygen, and starts from all of it."""
    assert 1.0 >= dead_end_share(length_m, after_s) >= dead_end_share(length_m, after_s + more_s) >= 0.0
    assert dead_end_share(length_m, 0.0) == 1.0


def test_twice_as_long_takes_four_times():
    """The time goes with the square of the length."""
    assert dead_end_s(0.4, 2e5, 20.0) == pytest.approx(4.0 * dead_end_s(0.2, 2e5, 20.0))


def test_nothing_to_wait_for():
    """A target not under the start is refused."""
    with pytest.raises(UnusableInput, match="Nothing to wait for"):
        dead_end_s(0.4, 100.0, 100.0)


def test_no_length():
    """A dead end without length is refused by name."""
    with pytest.raises(UnusableInput, match="length_m"):
        dead_end_share(0.0, 60.0)
