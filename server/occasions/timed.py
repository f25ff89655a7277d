"""An entry with its true time, the position at which it became known, and the true time it was tapped."""

from collections.abc import Iterable
from typing import Any, NamedTuple

from server.facts.clock import Stamp
from server.facts.recorded import Recorded
from server.occasions.clocks import Clocks


class Timed(NamedTuple):
    """One entry in true time; `shift_ms` makes the device's own times in it true."""

    at: Stamp
    position: int
    tapped_ms: int
    shift_ms: int
    entry: Any


# Every entry gets one; past the named fields' own checking it costs half.
_new = tuple.__new__


def in_true_time(recorded: Iterable[Recorded], clocks: Clocks) -> list[Timed]:
    """Give the entries with their true times, in that order."""
    timed = [_timed(each, clocks) for each in recorded]
    timed.sort(key=in_order)
    return timed


def _timed(recorded: Recorded, clocks: Clocks) -> Timed:
    position, _, _, entry = recorded
    at = clocks.stamp(entry)
    told = vars(entry)
    shift = at[0] - told["happened"]
    return _new(Timed, (at, position, told["device_time"] + shift, shift, entry))


def in_order(timed: Timed) -> tuple[int, str, int, int]:
    """Where an entry stands among others in true time; what one device counted alike, in the order it became known."""
    at_ms, _, device, _, seq = timed[0]
    return at_ms, device, seq, timed[1]
