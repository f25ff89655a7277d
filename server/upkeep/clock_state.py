"""How far this machine's own clock can be believed, on which the time of arrival of every entry rests."""

import ctypes
import time
from typing import NamedTuple

JUMP_S = 2.0
_TIMEX_BYTES = 208
_NOT_KEPT = 5
"""What the kernel answers when nothing keeps its clock in step (TIME_ERROR in timex.h)."""


class ClockState(NamedTuple):
    """Whether something keeps the clock in step (none: unknown), how far it jumped, and whether it lags the record."""

    in_step: bool | None
    jumped_s: float
    behind_record_s: float

    @property
    def believable(self) -> bool:
        """Say whether nothing speaks against it."""
        return self.in_step is not False and abs(self.jumped_s) < JUMP_S and self.behind_record_s < JUMP_S

    def __str__(self) -> str:
        """Say it in a sentence."""
        if self.behind_record_s >= JUMP_S:
            return f"the clock is {self.behind_record_s:.0f} s behind the last entry's arrival; set it right"
        if abs(self.jumped_s) >= JUMP_S:
            return f"the clock jumped by {self.jumped_s:+.0f} s while the service ran; look at what sets it"
        if self.in_step is False:
            return "nothing keeps the clock in step; switch network time on, or compare it by hand each week"
        return "the clock is kept in step" if self.in_step else "whether the clock is kept in step cannot be told here"


class ClockWatch:
    """Compares the wall's clock with one that cannot be set, from when it was made."""

    def __init__(self) -> None:
        self._began_s = _offset_s()

    def state(self, last_received_ms: int = 0) -> ClockState:
        """Look at the clock now; the arrival of the last entry must not lie in its future."""
        behind_s = max(0.0, last_received_ms / 1000 - time.time())
        return ClockState(kept_in_step(), _offset_s() - self._began_s, behind_s)


def kept_in_step() -> bool | None:
    """Ask the kernel whether something keeps its clock in step; none where it cannot be asked."""
    try:
        answer = ctypes.CDLL(None).adjtimex(ctypes.create_string_buffer(_TIMEX_BYTES))
    except (OSError, AttributeError):
        return None
    return None if answer < 0 else answer != _NOT_KEPT


def _offset_s() -> float:
    return time.time() - time.monotonic()
