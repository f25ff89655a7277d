"""A comparison by turns forgives a busy machine, and no work that is too slow."""

from collections.abc import Callable
from itertools import chain, repeat

from tests.benchmarks.turns import multiple


def told(*ours: float, then: float) -> Callable[[], float]:
    """Work that takes these times one after the other, and then always the same."""
    taken = chain(ours, repeat(then))
    return lambda: next(taken)


def once(work: Callable[[], object]) -> float:
    return float(str(work()))


def test_a_busy_machine_is_waited_for():
    """Four turns in which something else took the processor are followed by one in which nothing did."""
    assert multiple(told(9.0, 8.0, 9.0, 7.0, then=2.0), told(then=1.0), 3.0, rounds=3, timed=once) == 2.0


def test_slow_work_stays_slow():
    """Control: work that takes four floors is found to do so, however often it is asked and slow a floor once was."""
    assert multiple(told(then=4.0), told(2.0, 2.0, then=1.0), 3.0, rounds=3, timed=once) == 4.0
