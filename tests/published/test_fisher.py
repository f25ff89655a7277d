"""Fisher's tea experiment, The Design of Experiments (1935), chapter II (from memory)."""

import pytest

from server.statistics.two_by_two import exact_test


def test_tea() -> None:
    """Three of four cups told rightly: one-sided p 17/70, two-sided 34/70."""
    found = exact_test(3, 4, 1, 4)
    assert found.first_worse == pytest.approx(17 / 70, rel=1e-12)
    assert found.two_sided == pytest.approx(34 / 70, rel=1e-12)
