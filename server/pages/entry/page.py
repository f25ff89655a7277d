"""What the screen of one entry shows."""

from dataclasses import dataclass

from server.record.reading_lines import Sending
from server.work.frame_history import Told


@dataclass(frozen=True, slots=True)
class EntryPage:
    """One entry with its true time, and every time it was sent."""

    told: Told
    sendings: tuple[Sending, ...]
