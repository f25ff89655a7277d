"""Constants of control charts.

Read: A2 as listed from ASTM E2587 in an open library. From memory: d2, d3 and c4 as any textbook's appendix has them.
"""

import pytest

from server.statistics.chart_constants import chart_constants

SIZES = range(2, 11)
A2 = [1.880, 1.023, 0.729, 0.577, 0.483, 0.419, 0.373, 0.337, 0.308]
D2 = [1.128, 1.693, 2.059, 2.326, 2.534, 2.704, 2.847, 2.970, 3.078]
D3 = [0.853, 0.888, 0.880, 0.864, 0.848, 0.833, 0.820, 0.808, 0.797]
C4 = [0.7979, 0.8862, 0.9213, 0.9400, 0.9515, 0.9594, 0.9650, 0.9693, 0.9727]


@pytest.mark.parametrize(("size", "printed"), [*zip(SIZES, A2, strict=True)])
def test_a2(size: int, printed: float) -> None:
    """A2 for groups of 2 to 10 (read)."""
    assert chart_constants(size).a2 == pytest.approx(printed, abs=6e-4)


@pytest.mark.parametrize(("size", "printed"), [*zip(SIZES, D2, strict=True)])
def test_d2(size: int, printed: float) -> None:
    """The mean of the range for groups of 2 to 10 (from memory)."""
    assert chart_constants(size).d2 == pytest.approx(printed, abs=6e-4)


@pytest.mark.parametrize(("size", "printed"), [*zip(SIZES, D3, strict=True)])
def test_d3(size: int, printed: float) -> None:
    """The standard deviation of the range for groups of 2 to 10 (from memory)."""
    assert chart_constants(size).d3 == pytest.approx(printed, abs=6e-4)


@pytest.mark.parametrize(("size", "printed"), [*zip(SIZES, C4, strict=True)])
def test_c4(size: int, printed: float) -> None:
    """The mean of the standard deviation for groups of 2 to 10 (from memory)."""
    assert chart_constants(size).c4 == pytest.approx(printed, abs=6e-5)
