"""The shop as known at one record position, from which frames and shared things are made into occasions."""

from collections.abc import Sequence
from datetime import date

from server.facts.occasion import Occasion
from server.facts.orders import Packet
from server.facts.recorded import Recorded
from server.occasions.known import Known


class Shop:
    """Built once per batch; `on` holds everything against what is in force on that day instead of then."""

    def __init__(self, known: Known, on: date | None = None) -> None:
        self.known = known
        self.on = on

    def frame(self, packet: Packet, entries: Sequence[Recorded]) -> list[Occasion]:
        """Give the pass, tack, joint and frame occasions of one frame from its own entries."""
        raise LookupError(f"no occasions yet for {packet.frame} from {len(entries)} entries")

    def shared(self) -> list[Occasion]:
        """Give the occasions of gas lines, cylinders, instruments, sleeves, welders, tablets and papers."""
        return []
