"""When each boot of each device was first and last heard: read once from an index, then carried on."""

import threading
from collections.abc import Callable, Iterable
from typing import NamedTuple, TypeAlias


class Heard(NamedTuple):
    """One boot of one device: its lowest and highest count, and when it was first and last received [ms, UTC]."""

    device: str
    boot: str
    first_seq: int
    first_received_ms: int
    last_seq: int
    last_received_ms: int

    def with_(self, other: "Heard") -> "Heard":
        """Give the same boot with more of it heard."""
        return Heard(
            self.device,
            self.boot,
            min(self.first_seq, other.first_seq),
            min(self.first_received_ms, other.first_received_ms),
            max(self.last_seq, other.last_seq),
            max(self.last_received_ms, other.last_received_ms),
        )


Read: TypeAlias = Callable[[int, int], Iterable[Heard]]


class BootsHeard:
    """The boots known so far, by device; shared by all readers."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._of: dict[str, dict[str, Heard]] = {}
        self._read_to = 0

    def up_to(self, position: int, read: Read) -> dict[str, dict[str, Heard]] | None:
        """Give the boots as known at a position, reading only what came since; none when more is known already."""
        with self._lock:
            if position > self._read_to:
                self._of = with_more(self._of, read(self._read_to, position))
                self._read_to = position
            return self._of if position == self._read_to else None


def with_more(known: dict[str, dict[str, Heard]], more: Iterable[Heard]) -> dict[str, dict[str, Heard]]:
    """Give the boots with further ones read into them; what was known stays as it was, since others look at it."""
    found = dict(known)
    for each in more:
        boots = found.get(each.device, {})
        boots = dict(boots) if boots is known.get(each.device) else boots
        boots[each.boot] = boots[each.boot].with_(each) if each.boot in boots else each
        found[each.device] = boots
    return found
