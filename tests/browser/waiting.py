"""Waiting on a state and not on a time; the page's own policy forbids the driver's way of doing it."""

import time
from collections.abc import Callable

_LONGEST_S = 180


def until(true: Callable[[], object]) -> None:
    """Wait until something holds."""
    last = time.monotonic() + _LONGEST_S
    while not true():
        assert time.monotonic() < last, "it did not come to be"
        time.sleep(0.05)
