"""Which of two things came first: inside one start of a device by its own count, otherwise by true time."""

from server.facts.clock import Stamp


def came_before(first: Stamp, second: Stamp) -> bool | None:
    """Tell whether `first` came before `second`; none when they are closer than their clocks can tell."""
    if first.boot is not None and first.device == second.device and first.boot == second.boot:
        return (first.at_ms, first.seq) < (second.at_ms, second.seq)
    gap_ms = second.at_ms - first.at_ms
    if abs(gap_ms) > first.error_ms + second.error_ms:
        return gap_ms > 0
    if first.boot is not None and first.device == second.device and second.boot is not None:
        return first.seq < second.seq
    return None
