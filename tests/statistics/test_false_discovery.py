"""q beside p."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import false_discovery_control
from statsmodels.stats.multitest import multipletests

from server.statistics.errors import UnusableInput
from server.statistics.false_discovery import q_values


@given(st.lists(st.sampled_from([0.0, 0.001, 0.01, 0.02, 0.04, 0.2, 0.5, 0.9, 1.0]), min_size=1, max_size=40))
def test_as_scipy_and_statsmodels(chances: list[float]) -> None:
    """In any order and with ties, q is that of scipy and of statsmodels."""
    found = q_values(chances)
    assert found == pytest.approx(tuple(false_discovery_control(chances)), abs=1e-12)
    assert found == pytest.approx(tuple(multipletests(chances, method="fdr_bh")[1]), abs=1e-12)


@given(st.lists(st.floats(0.0, 1.0), min_size=1, max_size=40))
def test_q_is_never_below_p(chances: list[float]) -> None:
    """Looking at more never makes a finding stronger."""
    assert all(q >= p - 1e-15 for p, q in zip(chances, q_values(chances), strict=True))


@pytest.mark.parametrize("chances", [[], [0.5, 1.5], [-0.1]])
def test_inputs(chances: list[float]) -> None:
    """No tests at all, and chances outside 0 to 1, are refused."""
    with pytest.raises(UnusableInput, match="p_values"):
        q_values(chances)
