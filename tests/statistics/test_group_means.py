"""Means of groups."""

import math

import numpy as np
import pytest
from scipy.stats import f_oneway

from server.statistics.errors import UnusableInput
from server.statistics.group_means import compare_means


@pytest.mark.parametrize("seed", range(4))
def test_as_scipy(seed: int) -> None:
    """For groups of unlike size, ratio and p are those of scipy."""
    draws = np.random.default_rng(seed)
    groups = {name: draws.normal(40.0 + place, 3.0, 5 + 4 * place) for place, name in enumerate("abc")}
    found, expected = compare_means({name: [*row] for name, row in groups.items()}), f_oneway(*groups.values())
    assert (found.ratio, found.p) == pytest.approx((expected.statistic, expected.pvalue), rel=1e-9)
    assert found.means == pytest.approx({name: row.mean() for name, row in groups.items()})
    assert (found.between, found.inside) == (2, 24)


def test_apart_without_spread() -> None:
    """Groups that differ without any spread inside are as far apart as can be."""
    found = compare_means({"a": [1.0, 1.0], "b": [2.0, 2.0]})
    assert (found.ratio, found.p) == (math.inf, 0.0)


def test_the_least_that_can_be_compared() -> None:
    """Two groups, one of them repeated once, are enough: 1 and 3 against 5 have F = 6 over 2."""
    assert compare_means({"a": [1.0, 3.0], "b": [5.0]}).ratio == pytest.approx(3.0)


@pytest.mark.parametrize("groups", [{"a": [1.0, 2.0]}, {"a": [1.0], "b": [2.0]}, {"a": [1.0, 1.0], "b": [1.0]}])
def test_nothing_to_compare(groups: dict[str, list[float]]) -> None:
    """One group, groups of one, and readings all alike are refused."""
    with pytest.raises(UnusableInput, match="groups is"):
        compare_means(groups)
