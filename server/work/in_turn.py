"""Lets what costs a processor for seconds run two at a time; more wait their turn, and are then told to come again."""

import asyncio
from collections.abc import AsyncIterator
from threading import BoundedSemaphore
from time import monotonic

from server.work.refusal import Refusal

AT_ONCE = 2
PATIENCE_S = 20.0
_LOOK_EVERY_S = 0.05


class ComeAgain(Refusal):
    """Others ask for as much as the machine can do at once; nothing was taken, and soon it can."""


class Turns:
    """So many may work at once, whichever thread or event loop they come from."""

    def __init__(self, at_once: int = AT_ONCE, patience_s: float = PATIENCE_S) -> None:
        self._free = BoundedSemaphore(at_once)
        self._patience_s = patience_s

    async def take(self) -> None:
        """Wait for a turn without holding a thread; raises `ComeAgain` once patience is over."""
        until_s = monotonic() + self._patience_s
        while not self._free.acquire(blocking=False):
            if monotonic() >= until_s:
                raise ComeAgain("This takes the machine some seconds, and others are at it. Ask again in a moment.")
            await asyncio.sleep(_LOOK_EVERY_S)

    def give_back(self) -> None:
        """Let the next one in."""
        self._free.release()


TURNS = Turns()
"""The turns of this process: one machine, one store of them."""


async def costly() -> AsyncIterator[None]:
    """Hold a turn for as long as an address works; put before each address that makes the machine work for seconds."""
    turns = TURNS
    await turns.take()
    try:
        yield
    finally:
        turns.give_back()
