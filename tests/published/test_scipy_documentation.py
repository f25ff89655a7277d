"""Figures printed in the documentation of scipy.stats: binomtest, fisher_exact, relative_risk (read)."""

import pytest

from server.statistics.risk_ratio import risk_ratio
from server.statistics.share_interval import share_interval
from server.statistics.two_by_two import exact_test


def test_share_interval() -> None:
    """binomtest: 7 of 50 lie between .05819170033997342 and .26739600249700846."""
    found = share_interval(7, 50)
    assert found.low == pytest.approx(0.05819170033997342, rel=1e-9)
    assert found.high == pytest.approx(0.26739600249700846, rel=1e-9)


def test_exact_test() -> None:
    """fisher_exact: the table 8, 2 over 1, 5 has the two-sided p .034965034965."""
    assert exact_test(8, 10, 1, 6).two_sided == pytest.approx(0.034965034965, rel=1e-9)


def test_risk_ratio() -> None:
    """relative_risk: 27 of 122 against 44 of 487 is 2.4495 times, from 1.5837 to 3.7887."""
    found = risk_ratio(27, 122, 44, 487)
    assert found.estimate == pytest.approx(2.4495156482861398, rel=1e-9)
    assert found.low == pytest.approx(1.5836990926700116, rel=1e-9)
    assert found.high == pytest.approx(3.7886786315466354, rel=1e-9)
