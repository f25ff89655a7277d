"""What is made of everything known: kept, and carried on from the nearest earlier state instead of made anew."""

import threading
from collections.abc import Callable
from typing import Generic, TypeVar

_KEPT = 6

Made = TypeVar("Made")


class CarriedOn(Generic[Made]):
    """The newest states by their positions; nobody changes one, since whoever looks at it goes on looking."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._making = threading.Lock()
        self._states: dict[int, Made] = {}

    def forget(self) -> None:
        """Let everything go: what was made may hold a customer's details that were removed since."""
        with self._lock:
            self._states = {}

    def nearest(self, position: int) -> Made | None:
        """Give the newest state that knows nothing behind a position."""
        with self._lock:
            known = max((each for each in self._states if each <= position), default=None)
            return None if known is None else self._states[known]

    def exactly(self, position: int) -> Made | None:
        """Give the state at a position, if it is there."""
        with self._lock:
            return self._states.get(position)

    def at(self, position: int, carry: Callable[[Made | None], Made]) -> Made:
        """Give the state at a position, carried on from the nearest; who asks meanwhile waits for it."""
        with self._making:
            with self._lock:
                known = self._states.get(position)
            if known is not None:
                return known
            made = carry(self.nearest(position))
            with self._lock:
                self._states[position] = made
                for old in sorted(self._states)[:-_KEPT]:
                    del self._states[old]
            return made
