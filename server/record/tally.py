"""What the writer counts while it works, for whoever watches the service."""

from dataclasses import dataclass


@dataclass(slots=True)
class Tally:
    """Counts since the record was opened; only the writer changes them, anybody may look."""

    groups: int = 0
    lines: int = 0
    group_s: float = 0.0
    longest_group_s: float = 0.0
    no_room: int = 0
    disk_failures: int = 0
    room_is_missing: bool = False
    """The last group that had something to keep found no room."""

    def kept(self, lines: int, took_s: float) -> None:
        """Count a group that was kept."""
        self.groups += 1
        self.lines += lines
        self.group_s += took_s
        self.longest_group_s = max(self.longest_group_s, took_s)
        if lines:
            self.room_is_missing = False
