"""Two works in turns, so that what else runs on the machine slows both alike, and the least of each counts."""

from collections.abc import Callable
from time import process_time
from typing import Any

_LONGER = 20


def seconds(work: Callable[[], object]) -> float:
    """Processor time one piece of work takes [s], so that what else runs on the machine counts little."""
    began = process_time()
    work()
    return process_time() - began


def multiple(ours: Any, floor: Any, most: float, rounds: int = 9, timed: Callable[[Any], float] = seconds) -> float:
    """Give how many times the floor our work takes, by the least of each in so many turns.

    A busy machine lengthens a turn and never shortens one. So while it seems to be more than `most`, turns go on, up to
    twenty times as many: what the work really takes stays in all of them, what the machine added does not.
    """
    taken: list[tuple[float, float]] = []
    found = most + 1
    while len(taken) < rounds or (found > most and len(taken) < _LONGER * rounds):
        taken.append((timed(ours), timed(floor)))
        found = min(one for one, _ in taken) / min(two for _, two in taken)
    return found
