"""The chance that the true value conforms."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from scipy.stats import norm

from server.statistics.chance_within import chance_within, proof_factor
from server.statistics.errors import UnusableInput

NUMBERS = st.floats(-50.0, 50.0)


@given(value=NUMBERS, low=NUMBERS, high=NUMBERS, doubt=st.floats(0.1, 20.0))
def test_as_the_normal_curve(value: float, low: float, high: float, doubt: float) -> None:
    """The chance equals the area of scipy's normal curve between the limits."""
    assume(low < high)
    expected = norm.cdf((high - value) / doubt) - norm.cdf((low - value) / doubt)
    assert chance_within(value, low, high, doubt) == pytest.approx(expected, abs=1e-12)
    assert chance_within(value, low, None, doubt) == pytest.approx(norm.sf((low - value) / doubt), abs=1e-12)


def test_no_doubt() -> None:
    """Without doubt there is no chance to reckon, and the error says so."""
    with pytest.raises(UnusableInput, match=r"standard_uncertainty is 0.0; expected above 0"):
        chance_within(1.0, None, 2.0, 0.0)


@pytest.mark.parametrize("certainty", [0.0, 1.0, 95.0])
def test_certainty_is_a_share(certainty: float) -> None:
    """A certainty of 0, 1 or 95 is refused by name."""
    with pytest.raises(UnusableInput, match="certainty is"):
        proof_factor(certainty)
