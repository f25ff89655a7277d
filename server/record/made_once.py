"""What was made from everything known at one position, kept until more is known: too much to make for each question."""

import threading
from collections.abc import Callable
from typing import Any


class MadeOnce:
    """The last thing made under each name; whoever asks while it is being made waits for it."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._making: dict[str, threading.Lock] = {}
        self._made: dict[str, tuple[int, Any]] = {}

    def forget(self) -> None:
        """Let everything go: what was made may hold a customer's details that were removed since."""
        with self._lock:
            self._made = {}

    def at(self, name: str, position: int, make: Callable[[], Any]) -> Any:
        """Give the thing made at this position, or make it; one made of more stays for those who come later."""
        with self._lock:
            own = self._making.setdefault(name, threading.Lock())
        with own:
            known = self._made.get(name)
            if known is not None and known[0] == position:
                return known[1]
            made = make()
            if known is None or known[0] < position:
                self._made[name] = position, made
            return made
