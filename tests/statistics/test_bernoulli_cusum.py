"""Sound or faulty, joint by joint."""

from fractions import Fraction

import numpy as np
import pytest

from server.statistics.bernoulli_cusum import bernoulli_cusum_chart, bernoulli_run_length, joints_per_fault
from server.statistics.errors import UnusableInput


def test_sums_by_hand() -> None:
    """A fault lifts the sum by 17/18, a sound joint lowers it by 1/18, never below zero."""
    points = bernoulli_cusum_chart([False, True, False, True], 0.03, 0.09).tracks[0].points
    assert points == (0.0, float(Fraction(17, 18)), float(Fraction(16, 18)), float(Fraction(33, 18)))


def test_signal_from_the_decision_on() -> None:
    """The sum signals when it has reached the decision, not only when it has passed it."""
    faults = [True] * 4
    sums = [Fraction(17, 18) * count for count in range(1, 5)]
    at_the_third = float(sums[2])
    assert bernoulli_cusum_chart(faults, 0.03, 0.09, decision=at_the_third).tracks[0].signals == (2, 3)
    assert bernoulli_cusum_chart(faults, 0.03, 0.09, decision=3.0).tracks[0].signals == (3,)
    assert bernoulli_cusum_chart(faults, 0.03, 0.09, decision=52 / 18).tracks[0].signals == (3,)


def test_it_starts_at_nought() -> None:
    """A fault on the very first joint lifts the sum from nought, and the centre line is nought."""
    track = bernoulli_cusum_chart([True], 0.03, 0.09).tracks[0]
    assert (track.points, track.centre) == ((17 / 18,), 0.0)


@pytest.mark.parametrize("rate", [0.03, 0.09, 0.3])
def test_run_length_by_trying(rate: float) -> None:
    """The mean run length agrees with four thousand runs drawn by chance, within four standard errors."""
    draws = np.random.default_rng(11)
    sums, runs, counts = np.zeros(4000, dtype=int), np.zeros(4000, dtype=int), np.arange(4000)
    while counts.size:
        steps = np.where(draws.random(counts.size) < rate, 17, -1)
        sums[counts] = np.maximum(0, sums[counts] + steps)
        runs[counts] += 1
        counts = counts[sums[counts] < 54]
    error = runs.std() / np.sqrt(runs.size)
    assert bernoulli_run_length(rate, 0.03, 0.09) == pytest.approx(runs.mean(), abs=4.0 * error)


def test_it_says_how_often_it_is_wrong() -> None:
    """The chart states both run lengths in words."""
    chart = bernoulli_cusum_chart([False], 0.03, 0.09)
    assert "once in about 1,525 joints; a raised one takes 72" in chart.cannot_tell[0]


@pytest.mark.parametrize(("usual", "raised"), [(0.09, 0.03), (0.03, 0.03), (0.0, 0.1), (0.1, 1.0)])
def test_rates(usual: float, raised: float) -> None:
    """A raised rate that is not above the usual one, and rates of none or all, are refused."""
    with pytest.raises(UnusableInput):
        joints_per_fault(usual, raised)
