"""Exact intervals of counts and shares, and the interval of a ratio."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest, chi2
from scipy.stats.contingency import relative_risk
from statsmodels.stats.proportion import proportion_confint

from server.statistics.count_interval import count_interval
from server.statistics.errors import UnusableInput
from server.statistics.interval import Interval
from server.statistics.risk_ratio import risk_ratio
from server.statistics.share_interval import share_interval

CONFIDENCES = st.sampled_from([0.8, 0.9, 0.95, 0.99])
TALLIES = st.integers(1, 300).flatmap(lambda seen: st.tuples(st.integers(0, seen), st.just(seen)))


@given(count=st.integers(0, 500), confidence=CONFIDENCES)
def test_count(count: int, confidence: float) -> None:
    """The interval of a count follows scipy's chi-square curve."""
    tail = (1.0 - confidence) / 2.0
    found = count_interval(count, 2.0, confidence)
    assert found.estimate == count / 2.0
    assert found.low == pytest.approx(chi2.ppf(tail, 2 * count) / 4.0 if count else 0.0, rel=1e-9)
    assert found.high == pytest.approx(chi2.ppf(1.0 - tail, 2 * count + 2) / 4.0, rel=1e-9)


@given(tally=TALLIES, confidence=CONFIDENCES)
def test_share(tally: tuple[int, int], confidence: float) -> None:
    """The interval of a share is scipy's exact one and the statsmodels one by beta."""
    found = share_interval(*tally, confidence)
    exact = binomtest(*tally).proportion_ci(confidence, method="exact")
    assert found.estimate == tally[0] / tally[1]
    assert (found.low, found.high) == pytest.approx((exact.low, exact.high), abs=1e-9)
    assert (found.low, found.high) == pytest.approx(
        proportion_confint(*tally, alpha=1.0 - confidence, method="beta"), abs=1e-9
    )


@given(tally=TALLIES, other=TALLIES, confidence=CONFIDENCES)
def test_ratio(tally: tuple[int, int], other: tuple[int, int], confidence: float) -> None:
    """Without zeros the ratio and its interval are scipy's; with them it stays finite and above nought."""
    found = risk_ratio(*tally, *other, confidence)
    if tally[0] and other[0]:
        expected = relative_risk(*tally, *other)
        ends = expected.confidence_interval(confidence)
        assert (found.estimate, found.low, found.high) == pytest.approx(
            (expected.relative_risk, ends.low, ends.high), rel=1e-9
        )
    assert 0.0 < found.low <= found.estimate <= found.high < math.inf


def test_ratio_with_a_zero() -> None:
    """None of 10 against 2 of 20 becomes 0.5 of 11 against 2.5 of 21."""
    assert risk_ratio(0, 10, 2, 20).estimate == pytest.approx((0.5 / 11) / (2.5 / 21))


@pytest.mark.parametrize("confidence", [0.0, 1.0, 95.0])
def test_confidence_is_a_share(confidence: float) -> None:
    """A confidence of 0, 1 or 95 is refused by name."""
    for call in (lambda: count_interval(1, 1.0, confidence), lambda: share_interval(1, 2, confidence)):
        with pytest.raises(UnusableInput, match="confidence is"):
            call()
    with pytest.raises(UnusableInput, match="confidence is"):
        risk_ratio(1, 2, 1, 2, confidence)


def test_no_exposure() -> None:
    """A rate over no exposure is refused."""
    with pytest.raises(UnusableInput, match="exposure is 0"):
        count_interval(1, exposure=0)


def test_as_words() -> None:
    """An interval reads as estimate, ends and confidence."""
    assert str(Interval(0.14, 0.0582, 0.2674, 0.95)) == "0.14 (0.0582 to 0.267, 95 %)"
