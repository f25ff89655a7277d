"""True times of entries, from what each sending says about the device's clock and its steady counter."""

from array import array
from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator
from typing import NamedTuple

from server.facts.clock import ClockPair, ClockSegment, Stamp
from server.facts.entry import Entry
from server.occasions.about import About
from server.occasions.boot_clock import BootClock, Tapped, boot_clock
from server.occasions.regimes import segments_of

# A person writes the minute; nothing on paper says more.
PAPER_ERROR_MS = 60_000
_new = tuple.__new__
Boot = tuple[str, str | None]
"""A device and one of its boots."""
_UNSENT = -(1 << 62)
_FAR_MS = 1 << 62


class _Told(NamedTuple):
    """All sendings of one boot, kept small: five numbers each (count, counter, clock, sent, received)."""

    numbers: "array[int]"
    first_seq: int
    first_received_ms: int
    last_received_ms: int
    next_heard_ms: int = _FAR_MS

    def pairs(self, device: str, boot: str) -> Iterator[ClockPair]:
        """Give the sendings again, in the order they came."""
        told = iter(self.numbers)
        for seq, mono_ms, device_ms, sent_ms, received_ms in zip(told, told, told, told, told, strict=True):
            sent = None if sent_ms == _UNSENT else sent_ms
            yield _new(ClockPair, (device, boot, seq, mono_ms, device_ms, sent, received_ms))

    def with_more(self, pairs: Iterable[ClockPair]) -> "_Told":
        """Give the boot with further sendings told."""
        numbers, first, heard, last = array("q", self.numbers), *self[1:4]
        for _, _, seq, mono_ms, device_ms, sent_ms, received_ms in pairs:
            numbers.extend((seq, mono_ms or 0, device_ms, _UNSENT if sent_ms is None else sent_ms, received_ms))
            first, heard, last = min(first, seq), min(heard, received_ms), max(last, received_ms)
        return _Told(numbers, first, heard, last, self.next_heard_ms)


_NOTHING = _Told(array("q"), _FAR_MS, _FAR_MS, _UNSENT)


class Clocks:
    """The clocks of all devices; a device that never counted is believed as it stands, to the minute."""

    def __init__(self, pairs: Iterable[ClockPair] = ()) -> None:
        self._boots: dict[Boot, BootClock] = {}
        self._told: dict[str, dict[str, _Told]] = {}
        self._take(pairs)

    def with_more(self, pairs: Iterable[ClockPair]) -> tuple["Clocks", set[Boot]]:
        """Give the clocks with further sendings told, and the boots told of before whose times are others now."""
        found = Clocks()
        found._boots, found._told = dict(self._boots), dict(self._told)
        return found, found._take(pairs)

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

    def segments(self, about: About = None) -> list[ClockSegment]:
        """Give every stretch of every device's clock, or of some, in the order of time."""
        devices = self._told if about is None else [each for each in about if each in self._told]
        found = [
            segment
            for device in devices
            for boots in (self._told[device],)
            for boot, told in reversed(_in_order(boots))
            if (device, boot) in self._boots
            for segment in segments_of(device, boot, list(told.pairs(device, boot)), self._boots[device, boot])
        ]
        return sorted(found, key=_since)

    def heard_since(self, before: "Clocks") -> set[str]:
        """Give the devices that were heard since an earlier state of the clocks."""
        return {device for device, boots in self._told.items() if before._told.get(device) is not boots}

    def _take(self, pairs: Iterable[ClockPair]) -> set[Boot]:
        more: dict[str, dict[str, list[ClockPair]]] = defaultdict(lambda: defaultdict(list))
        for pair in pairs:
            if pair.boot is not None and pair.mono_ms is not None:
                more[pair.device][pair.boot].append(pair)
        changed: set[Boot] = set()
        for device, boots in more.items():
            told_before = self._told.get(device, {})
            known = dict(told_before)
            known |= {boot: known.get(boot, _NOTHING).with_more(told) for boot, told in boots.items()}
            self._told[device] = known
            changed |= {each for each in self._settle(device, known, boots.keys()) if each[1] in told_before}
        return changed

    def _settle(self, device: str, boots: dict[str, _Told], heard: Collection[str]) -> set[Boot]:
        """Settle the boots that were heard again, and those whose next boot was heard before their last sending."""
        changed: set[Boot] = set()
        next_ms = _FAR_MS
        for boot, told in reversed(_in_order(boots)):
            moved = next_ms != told.next_heard_ms
            if boot in heard or (moved and told.last_received_ms >= min(next_ms, told.next_heard_ms)):
                changed |= self._settle_one((device, boot), told, next_ms)
            if moved:
                boots[boot] = told._replace(next_heard_ms=next_ms)
            next_ms = min(next_ms, told.first_received_ms)
        return changed

    def _settle_one(self, of: tuple[str, str], told: _Told, next_ms: int) -> set[Boot]:
        tapped = [Tapped.of(pair) for pair in told.pairs(*of) if pair.sent_ms is not None]
        clock = boot_clock(tapped, None if next_ms == _FAR_MS else next_ms)
        if clock is None or clock == self._boots.get(of):
            return set()
        self._boots[of] = clock
        return {of}


def _in_order(boots: dict[str, _Told]) -> list[tuple[str, _Told]]:
    return sorted(boots.items(), key=lambda item: item[1].first_seq)


def _since(segment: ClockSegment) -> tuple[int, str]:
    return segment.since_ms, segment.device
