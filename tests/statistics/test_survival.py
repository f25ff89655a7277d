"""Survival when most lives are still running."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lifelines import KaplanMeierFitter

from server.statistics.errors import UnusableInput
from server.statistics.survival import kaplan_meier

LIVES = st.lists(st.tuples(st.integers(1, 12), st.booleans()), min_size=2, max_size=40)


@given(LIVES)
def test_as_lifelines(lives: list[tuple[int, bool]]) -> None:
    """With ties of all kinds, survival and both ends are those of lifelines."""
    times, failed = [float(time) for time, _ in lives], [end for _, end in lives]
    fitter = KaplanMeierFitter().fit(times, failed)
    for step in kaplan_meier(times, failed).steps:
        assert step.survival == pytest.approx(fitter.survival_function_at_times(step.time).iloc[0], abs=1e-9)
        assert (step.low is None) == (step.high is None) == (step.survival == 0.0)
        if step.low is not None:
            ends = fitter.confidence_interval_survival_function_.loc[step.time]
            assert (step.low, step.high) == pytest.approx((ends.iloc[0], ends.iloc[1]), abs=1e-9)


def test_a_failure_comes_before_a_life_taken_off_at_the_same_time() -> None:
    """Who leaves at the time of a failure was still at risk."""
    step = kaplan_meier([5.0, 5.0], [True, False]).steps[0]
    assert (step.at_risk, step.failures, step.survival) == (2, 1, 0.5)


def test_none_left() -> None:
    """When the last one fails survival is nought and there is no interval."""
    last = kaplan_meier([1.0, 2.0], [True, True]).steps[-1]
    assert (last.survival, last.low, last.high) == (0.0, None, None)


def test_median() -> None:
    """The median is the first time at which half or fewer survive, and is not there while more do."""
    assert kaplan_meier([1.0, 2.0, 3.0, 4.0], [True] * 4).median == 2.0
    assert kaplan_meier([1.0, 2.0, 3.0], [True, False, False]).median is None


def test_no_failure() -> None:
    """Without a failure there is no step, and the curve says how far it was watched."""
    curve = kaplan_meier([3.0, 8.0], [False, False])
    assert (curve.steps, curve.failures, curve.count, curve.watched_until) == ((), 0, 2, 8.0)
    assert any("beyond the longest life watched" in sentence for sentence in curve.cannot_tell)
    assert "rests on 0 failures" in curve.cannot_tell[0]


def test_no_lives() -> None:
    """No lives at all are refused."""
    with pytest.raises(UnusableInput, match="at least 1"):
        kaplan_meier([], [])
