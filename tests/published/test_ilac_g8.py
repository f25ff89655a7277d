"""A figure of ILAC G8:09/2019, Guidelines on decision rules, page 8 (read)."""

import pytest

from server.statistics.chance_within import chance_within


def test_guard_of_two_standard_uncertainties() -> None:
    """A guard of U = 2u leaves under 2.5 % of false acceptance, 2.275 % by the normal curve."""
    risk = 1.0 - chance_within(10.0 - 2.0 * 0.5, None, 10.0, 0.5)
    assert risk < 0.025
    assert risk == pytest.approx(0.02275, abs=1e-5)


def test_no_guard() -> None:
    """Without a guard, a reading on the limit is falsely accepted up to half the time."""
    assert 1.0 - chance_within(10.0, None, 10.0, 0.5) == pytest.approx(0.5, abs=1e-12)
