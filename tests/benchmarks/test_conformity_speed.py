"""Reach of conformity: a column against one look-up of the normal curve, both timed in this run."""

import numpy as np
import pytest
from scipy.special import ndtr

from server.statistics.conformity import conform
from server.statistics.conformity_of_many import conform_many
from tests.benchmarks.turns import multiple

READINGS = np.random.default_rng(1).normal(45.0, 5.0, 1_000_000)
DOUBTS = np.sqrt(1.0 + (0.05 * READINGS) ** 2)


@pytest.mark.parametrize("doubts", [2.5, DOUBTS], ids=["one for all", "one for each"])
def test_a_million_readings(doubts: float | np.ndarray) -> None:
    """One-sided conformity of a million readings takes at most the time of one scipy.special.ndtr on them."""
    assert multiple(lambda: conform_many(READINGS, None, 50.0, doubts), lambda: ndtr(READINGS), 1.0) <= 1.0


def nothing(value: float, low: float | None, high: float | None, doubt: float) -> float:
    """A call with the same four places that does no work."""
    return value


def test_one_at_a_time() -> None:
    """A single judgement costs at most ten times a call that does nothing."""
    few = READINGS[:50_000].tolist()
    taken = multiple(
        lambda: [conform(reading, None, 50.0, 2.5) for reading in few],
        lambda: [nothing(reading, None, 50.0, 2.5) for reading in few],
        10.0,
    )
    assert taken <= 10.0
