"""What at most slips through is the exact one-sided bound."""

import pytest

from server.statistics.errors import UnusableInput
from server.statistics.share_interval import share_interval
from server.statistics.slips_through import slips_through
from server.statistics.tails import binomial_at_most


@pytest.mark.parametrize("looked", [1, 2, 10, 60, 300])
def test_none_found_has_its_closed_form(looked: int):
    """For none found the bound is 1 − 0.05^(1/n)."""
    assert slips_through(0, looked) == pytest.approx(1 - 0.05 ** (1 / looked))


@pytest.mark.parametrize(("found", "looked"), [(1, 10), (3, 40), (0, 25), (7, 8)])
def test_at_the_bound_so_few_are_found_once_in_twenty(found: int, looked: int):
    """At a true share of the bound itself, this few or fewer are found with a chance of 5 %."""
    assert binomial_at_most(found, looked, slips_through(found, looked)) == pytest.approx(0.05)


def test_it_is_the_upper_end_of_a_two_sided_interval_of_90_percent():
    """One-sided 95 % is the upper end of two-sided 90 %."""
    assert slips_through(2, 30) == pytest.approx(share_interval(2, 30, 0.90).high)


def test_all_found_bounds_nothing_and_none_looked_at_is_refused():
    """With every joint bad the bound is 1; without a look there is no bound."""
    assert slips_through(5, 5) == 1.0
    with pytest.raises(UnusableInput):
        slips_through(0, 0)
