"""True times of entries, from what each sending says about the device's clock and its steady counter."""

from collections import defaultdict
from collections.abc import Iterable

from server.facts.clock import ClockPair, ClockSegment, Stamp
from server.facts.entry import Entry
from server.occasions.boot_clock import BootClock, Tapped, boot_clock
from server.occasions.regimes import segments_of

# A person writes the minute; nothing on paper says more.
PAPER_ERROR_MS = 60_000
_new = tuple.__new__


class Clocks:
    """The clocks of all devices; a device that never counted is believed as it stands, to the minute."""

    def __init__(self, pairs: Iterable[ClockPair]) -> None:
        by_device: dict[str, dict[str, list[ClockPair]]] = defaultdict(lambda: defaultdict(list))
        for pair in pairs:
            if pair.boot is not None and pair.mono_ms is not None:
                by_device[pair.device][pair.boot].append(pair)
        self._boots: dict[tuple[str, str | None], BootClock] = {}
        self._pairs: dict[tuple[str, str | None], list[ClockPair]] = {}
        for device, boots in by_device.items():
            self._read_device(device, boots)

    def stamp(self, entry: Entry) -> Stamp:
        """Give the true time at which what the entry tells happened."""
        # Asked of every entry; a noun's own way to its fields takes three times as long as a plain look-up.
        told = vars(entry)
        device, boot, mono_ms, happened = told["device"], told["boot"], told["mono_ms"], told["happened"]
        clock = self._boots.get((device, boot))
        if clock is None or mono_ms is None:
            return Stamp(happened, PAPER_ERROR_MS, device, None, told["seq"])
        at_ms = mono_ms + clock.true_at_start_ms + happened - told["device_time"]
        return _new(Stamp, (at_ms, clock.error_ms(mono_ms), device, boot, told["seq"]))

    def shift_ms(self, entry: Entry) -> int:
        """Give what must be added to the device's own times in this entry to make them true."""
        clock = self._boots.get((entry.device, entry.boot))
        if clock is None or entry.mono_ms is None:
            return 0
        return entry.mono_ms + clock.true_at_start_ms - entry.device_time

    def segments(self) -> list[ClockSegment]:
        """Give every stretch of every device's clock, in the order of time."""
        found = [
            segment
            for (device, boot), pairs in self._pairs.items()
            for segment in segments_of(device, str(boot), pairs, self._boots[device, boot])
        ]
        return sorted(found, key=_since)

    def _read_device(self, device: str, boots: dict[str, list[ClockPair]]) -> None:
        in_order = sorted(boots.items(), key=lambda item: min(pair.seq for pair in item[1]))
        next_heard_ms: int | None = None
        for boot, pairs in reversed(in_order):
            tapped = [Tapped.of(pair) for pair in pairs if pair.sent_ms is not None]
            clock = boot_clock(tapped, next_heard_ms)
            heard_ms = min(pair.received_ms for pair in pairs)
            next_heard_ms = heard_ms if next_heard_ms is None else min(next_heard_ms, heard_ms)
            if clock is not None:
                self._boots[device, boot] = clock
                self._pairs[device, boot] = pairs


def _since(segment: ClockSegment) -> tuple[int, str]:
    return segment.since_ms, segment.device
