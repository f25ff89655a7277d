"""What others made of the tables of a shop, by name, for as long as what it was made of stays the same."""

from collections.abc import Callable
from operator import is_
from typing import Any, TypeVar

Made = TypeVar("Made")


class MadeOf:
    """Kept with one state of the shop; the next state begins with what was made of the one before."""

    def __init__(self, before: "MadeOf | None" = None) -> None:
        self._made: dict[str, tuple[tuple[object, ...], Any]] = dict(before._made) if before else {}

    def kept(self, name: str, sources: tuple[object, ...], make: Callable[[Made | None], Made]) -> Made:
        """Give what was made of these very sources; else make it, from what was made of others before them."""
        known = self._made.get(name)
        if known is None or not all(map(is_, known[0], sources)):
            known = self._made[name] = sources, make(known[1] if known else None)
        answer: Made = known[1]
        return answer
