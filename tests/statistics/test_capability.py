"""Capability with its interval."""

import numpy as np
import pytest
from scipy.stats import chi2

from server.statistics.capability import capability, cpk_interval
from server.statistics.errors import UnusableInput, ZeroWidthLimit


def test_cp_interval() -> None:
    """The ends of Cp follow scipy's chi-square curve."""
    found = capability(mean=10.0, sd=1.0, count=30, low=6.0, high=14.0).cp
    assert found is not None
    assert found.low == pytest.approx(8 / 6 * (chi2.ppf(0.025, 29) / 29) ** 0.5, rel=1e-9)
    assert found.high == pytest.approx(8 / 6 * (chi2.ppf(0.975, 29) / 29) ** 0.5, rel=1e-9)


def test_one_limit() -> None:
    """With only an upper limit there is a Cpk and no Cp."""
    found = capability(mean=42.0, sd=2.0, count=40, low=None, high=50.0)
    assert found.cp is None
    assert found.off_centre is None
    assert found.toward_low is None
    assert found.cpk.estimate == found.toward_high == pytest.approx(8 / 6)


def test_cpk_interval_by_hand() -> None:
    """At Cpk 0 only the mean is in doubt: ± 1.96/(3 √n); at Cpk 3 from 201 readings √(1/1809 + 9/400)."""
    assert cpk_interval(0.0, 100).high == pytest.approx(1.959964 / 30.0, rel=1e-6)
    assert cpk_interval(3.0, 201).low == pytest.approx(3.0 - 1.959964 * (1 / 1809 + 9 / 400) ** 0.5, rel=1e-6)


def test_interval_holds_the_truth() -> None:
    """Of two thousand samples of 50 from a process of Cpk 1.33, 93 to 97 % have intervals that hold it."""
    samples = np.random.default_rng(5).normal(0.0, 1.0, (2000, 50))
    cpks = (4.0 - samples.mean(axis=1)) / (3.0 * samples.std(axis=1, ddof=1))
    intervals = [cpk_interval(float(cpk), 50) for cpk in cpks]
    held = sum(found.low <= 4.0 / 3.0 <= found.high for found in intervals)
    assert 0.93 <= held / 2000 <= 0.97


def test_it_says_how_few_there_are() -> None:
    """Under fifty readings the count is mentioned; from fifty on it is not."""
    assert "rests on 20 points" in capability(1.0, 1.0, 20, None, 5.0).cannot_tell[0]
    assert "rests on" not in capability(1.0, 1.0, 50, None, 5.0).cannot_tell[0]


def test_inputs() -> None:
    """No limit, limits that meet, no spread and a single reading are refused by name."""
    with pytest.raises(UnusableInput, match="a limit on one side at least"):
        capability(1.0, 1.0, 20, None, None)
    with pytest.raises(ZeroWidthLimit):
        capability(1.0, 1.0, 20, 5.0, 5.0)
    with pytest.raises(UnusableInput, match="sd is"):
        capability(1.0, 0.0, 20, None, 5.0)
    with pytest.raises(UnusableInput, match="count is 1"):
        cpk_interval(1.0, 1)
