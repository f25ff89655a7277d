"""Reach of conformity: a column against one look-up of the normal curve, both timed in this run."""

from collections.abc import Callable
from time import perf_counter

import numpy as np
import pytest
from scipy.special import ndtr

from server.statistics.conformity import conform
from server.statistics.conformity_of_many import conform_many

READINGS = np.random.default_rng(1).normal(45.0, 5.0, 1_000_000)
DOUBTS = np.sqrt(1.0 + (0.05 * READINGS) ** 2)


def seconds(call: Callable[[], object]) -> float:
    start = perf_counter()
    call()
    return perf_counter() - start


def best_of_both(first: Callable[[], object], other: Callable[[], object], rounds: int = 9) -> tuple[float, float]:
    """The least time of each, taken in turns so that a busy machine slows both alike."""
    pairs = [(seconds(first), seconds(other)) for _ in range(rounds)]
    return min(one for one, _ in pairs), min(two for _, two in pairs)


@pytest.mark.parametrize("doubts", [2.5, DOUBTS], ids=["one for all", "one for each"])
def test_a_million_readings(doubts: float | np.ndarray) -> None:
    """One-sided conformity of a million readings takes at most the time of one scipy.special.ndtr on them."""
    ours, theirs = best_of_both(lambda: conform_many(READINGS, None, 50.0, doubts), lambda: ndtr(READINGS))
    assert ours <= theirs


def nothing(value: float, low: float | None, high: float | None, doubt: float) -> float:
    """A call with the same four places that does no work."""
    return value


def test_one_at_a_time() -> None:
    """A single judgement costs at most ten times a call that does nothing."""
    few = READINGS[:50_000].tolist()
    ours, theirs = best_of_both(
        lambda: [conform(reading, None, 50.0, 2.5) for reading in few],
        lambda: [nothing(reading, None, 50.0, 2.5) for reading in few],
    )
    assert ours <= 10.0 * theirs
