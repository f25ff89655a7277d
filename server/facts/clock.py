"""What is known of a device's clock: the pairs it gives with every sending, and the stretches they add up to."""

from typing import NamedTuple


class ClockPair(NamedTuple):
    """One sending of one entry: when it was tapped by both of the device's clocks, sent by its own, received by ours.

    All in ms; `mono_ms` counts since the device's start `boot`. Repeats give pairs too.
    """

    device: str
    boot: str | None
    seq: int
    mono_ms: int | None
    device_ms: int
    sent_ms: int | None
    received_ms: int


class ClockSegment(NamedTuple):
    """A stretch in one boot of one device over which its clock was off by the same amount [ms].

    `offset_ms` is the device's clock less the true time; `since_ms` and `until_ms` are true times; `after_mending`
    counts the entries tapped in this stretch and sent only when the clock had been put right.
    """

    device: str
    boot: str
    since_ms: int
    until_ms: int
    offset_ms: int
    error_ms: int
    entries: tuple[int, ...]
    after_mending: int = 0


class Stamp(NamedTuple):
    """A true time [ms, UTC] with how far it may be off, and the device's own count, which orders its own entries."""

    at_ms: int
    error_ms: int
    device: str
    boot: str | None
    seq: int
