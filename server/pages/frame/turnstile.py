"""Lets strangers through one after the other: a machine the shop does not know asks so often and no oftener."""

import math
import time
from collections.abc import Callable
from threading import Lock

AT_ONCE, PER_S = 300, 10
_MOST_REMEMBERED = 10_000


class Turnstile:
    """For each machine how many requests it may still make at once; what it did not use comes back with time."""

    def __init__(self, now_s: Callable[[], float] = time.monotonic) -> None:
        self._now_s = now_s
        self._left: dict[str, tuple[float, float]] = {}
        self._turn = Lock()

    def wait_s(self, machine: str) -> int:
        """Count one request of a machine: 0 lets it through, else the whole seconds until the next one is [s]."""
        now_s = self._now_s()
        with self._turn:
            left, at_s = self._left.get(machine, (float(AT_ONCE), now_s))
            left = min(AT_ONCE, left + (now_s - at_s) * PER_S)
            through = left >= 1
            self._left[machine] = (left - 1 if through else left, now_s)
            if len(self._left) > _MOST_REMEMBERED:
                self._forget(now_s)
        return 0 if through else math.ceil((1 - left) / PER_S)

    def _forget(self, now_s: float) -> None:
        full_again_s = AT_ONCE / PER_S
        self._left = {each: of for each, of in self._left.items() if now_s - of[1] < full_again_s}
