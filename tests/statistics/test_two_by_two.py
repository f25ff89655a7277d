"""Two groups compared exactly."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import fisher_exact, hypergeom

from server.statistics.errors import UnusableInput
from server.statistics.two_by_two import exact_test

TALLIES = st.integers(1, 80).flatmap(lambda seen: st.tuples(st.integers(0, seen), st.just(seen)))


@given(first=TALLIES, other=TALLIES)
def test_as_scipy(first: tuple[int, int], other: tuple[int, int]) -> None:
    """All three chances are those of scipy's exact test."""
    found = exact_test(*first, *other)
    table = np.array([[first[0], first[1] - first[0]], [other[0], other[1] - other[0]]])
    assert found.two_sided == pytest.approx(fisher_exact(table).pvalue, abs=1e-9)
    assert found.first_worse == pytest.approx(fisher_exact(table, alternative="greater").pvalue, abs=1e-9)
    assert found.first_better == pytest.approx(fisher_exact(table, alternative="less").pvalue, abs=1e-9)


@given(first=TALLIES, other=TALLIES)
def test_mid_p(first: tuple[int, int], other: tuple[int, int]) -> None:
    """Each mid-P is its tail less half the chance of the table seen, by scipy's hypergeometric law."""
    found = exact_test(*first, *other)
    here = hypergeom(first[1] + other[1], first[0] + other[0], first[1]).pmf(first[0])
    assert found.mid_two_sided == pytest.approx(found.two_sided - here / 2.0, abs=1e-9)
    assert found.mid_first_worse == pytest.approx(found.first_worse - here / 2.0, abs=1e-9)


@given(first=TALLIES, other=TALLIES)
def test_groups_change_places(first: tuple[int, int], other: tuple[int, int]) -> None:
    """Worse from one side is better from the other."""
    there, back = exact_test(*first, *other), exact_test(*other, *first)
    assert there.first_worse == pytest.approx(back.first_better, abs=1e-12)
    assert there.two_sided == pytest.approx(back.two_sided, abs=1e-12)


def test_large_groups() -> None:
    """Groups of a hundred thousand neither overflow nor lose digits."""
    expected = fisher_exact(np.array([[30_000, 70_000], [31_000, 69_000]])).pvalue
    assert exact_test(30_000, 100_000, 31_000, 100_000).two_sided == pytest.approx(expected, rel=1e-6)


def test_impossible_tally() -> None:
    """More faults than joints are refused."""
    with pytest.raises(UnusableInput, match="at most the 4 looked at"):
        exact_test(5, 4, 0, 4)
