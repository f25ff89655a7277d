"""Counts of faults in time order."""

import pytest
from scipy.stats import poisson

from server.statistics.count_chart import count_chart
from server.statistics.errors import UnusableInput


def test_exposure_by_hand() -> None:
    """Ten faults on twenty metres and four on eight are 0.5 a metre; limits follow each length."""
    track = count_chart([10, 4], [20.0, 8.0], exact=False).track("count")
    assert track.points == (0.5, 0.5)
    assert track.centre == 0.5
    assert track.upper[0] == pytest.approx(0.5 + 3 * (0.5 / 20) ** 0.5)
    assert track.upper[1] == pytest.approx(0.5 + 3 * (0.5 / 8) ** 0.5)


def test_exact_limit_is_the_last_quiet_count() -> None:
    """At two faults a frame seven do not signal and eight do."""
    quiet, loud = count_chart([0, 1, 2, 1, 7, 1]), count_chart([0, 1, 2, 0, 8, 1])
    assert (quiet.figures["mean"], loud.figures["mean"]) == (2.0, 2.0)
    assert (quiet.track("count").signals, loud.track("count").signals) == ((), (4,))


def test_lower_limits() -> None:
    """Too few faults signal too, per metre as they are charted; classical limits stop at nought."""
    chart = count_chart([10, 40, 40], [2.0, 2.0, 2.0])
    low = chart.track("count").lower[0]
    assert low is not None
    assert poisson(30).cdf(round(low * 2.0) - 1) <= 0.00135 < poisson(30).cdf(round(low * 2.0))
    assert chart.track("count").signals == (0,)
    assert count_chart([1, 2], exact=False).track("count").lower == (0.0, 0.0)


def test_no_fault_at_all() -> None:
    """Where nothing was ever counted there are no limits."""
    assert count_chart([0, 0]).track("count").upper == (None, None)


@pytest.mark.parametrize(
    ("counts", "exposures"), [([], None), ([1], [1.0, 2.0]), ([1.5], None), ([1], [0.0]), ([-1], None)]
)
def test_inputs(counts: list[int], exposures: list[float] | None) -> None:
    """No counts, rows that do not match, broken counts and no exposure are refused."""
    with pytest.raises(UnusableInput):
        count_chart(counts, exposures)
