"""The exponential of an exchange against a library's."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.linalg import expm

from server.physics.purge_cells import part_into_cells
from server.physics.purge_flow import settle_flow
from server.physics.purge_step import step_matrix
from tests.physics.frame_purge import STAYS, frame


@given(st.sets(st.sampled_from(STAYS)), st.floats(0.0, 300.0))
def test_as_the_library_says(closed, seconds):
    """For a frame's exchange over no time up to five minutes it is the library's exponential."""
    rate = part_into_cells(frame(closed), settle_flow(frame(closed)), 8).rate_per_s
    assert np.allclose(step_matrix(rate, seconds), expm(rate * seconds), rtol=1e-9, atol=1e-13)


@given(st.integers(1, 8), st.floats(0.01, 20.0))
def test_tanks_in_a_row(tanks, changes):
    """Equal tanks in a row, whose matrix cannot be split into single decays, follow the terms of Poisson."""
    rate = np.eye(tanks, k=-1) - np.eye(tanks)
    term, terms = np.exp(-changes), []
    for at in range(tanks):
        terms.append(term)
        term *= changes / (at + 1)
    assert step_matrix(rate, changes)[:, 0] == pytest.approx(terms, rel=1e-10)


def test_nothing_is_ever_below_zero():
    """Every share carried over is zero or more, whether the step is a microsecond or an hour."""
    rate = part_into_cells(frame(STAYS), settle_flow(frame(STAYS)), 8).rate_per_s
    for seconds in (1e-6, 1.0, 3600.0):
        assert step_matrix(rate, seconds).min() >= 0.0
