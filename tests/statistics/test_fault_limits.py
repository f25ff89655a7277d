"""Exact limits for counts."""

import pytest
from scipy.stats import binom, poisson

from server.statistics.errors import UnusableInput
from server.statistics.fault_limits import FALSE_ALARM, count_limits, fault_limits


@pytest.mark.parametrize(("seen", "rate"), [(8, 0.03), (8, 0.3), (50, 0.2), (400, 0.05), (3, 0.9)])
def test_share_limits(seen: int, rate: float) -> None:
    """By scipy's binomial curve each limit signals no oftener than promised, and one fault less would."""
    low, high = fault_limits(seen, rate)
    law = binom(seen, rate)
    assert law.sf(high - 1) <= FALSE_ALARM < law.sf(high - 2)
    assert low is None or law.cdf(low) <= FALSE_ALARM
    assert law.cdf(-1 if low is None else low + 0) <= FALSE_ALARM < law.cdf(0 if low is None else low + 1)


def test_no_count_is_too_many() -> None:
    """Where even all faulty is no surprise, the limit lies beyond the group."""
    assert fault_limits(3, 0.9) == (0, 4)
    assert fault_limits(1, 0.5) == (None, 2)


@pytest.mark.parametrize("mean", [0.1, 2.0, 16.0, 300.0])
def test_count_limits(mean: float) -> None:
    """By scipy's Poisson curve each limit signals no oftener than promised, and one count nearer would."""
    low, high = count_limits(mean)
    law = poisson(mean)
    assert law.sf(high - 1) <= FALSE_ALARM < law.sf(high - 2)
    assert law.cdf(-1 if low is None else low) <= FALSE_ALARM < law.cdf(0 if low is None else low + 1)


def test_inputs() -> None:
    """An empty group, a rate in percent and a mean of nothing are refused."""
    for seen, rate in ((0, 0.03), (8, 3.0)):
        with pytest.raises(UnusableInput):
            fault_limits(seen, rate)
    with pytest.raises(UnusableInput):
        count_limits(0.0)
