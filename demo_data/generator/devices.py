"""Gives every entry its device's clock, counter and number, and sends it: at once, or when the network is back."""

from bisect import bisect_right
from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace
from datetime import date, timedelta
from functools import cache
from typing import Any, NamedTuple

from demo_data.generator.days import HOUR, MINUTE, at, clock_of
from demo_data.generator.dice import Dice
from demo_data.generator.json_line import json_line
from demo_data.generator.story import Happening, KeyOf

IMPORT = "IMPORT"
SPACING_MS = 500
THICK_WALLS = ("TAB-A", "TAB-B")


class Boot(NamedTuple):
    """One start of a device: from when, its id, and how far its clock is off [ms] until it is put right."""

    start: int
    id: str
    off_ms: int
    mended_at: int | None = None


class Sent(NamedTuple):
    """One sending of one entry: moments in true ms, and the device's clock when it was sent."""

    received: int
    id: str
    device: str
    sent: int | None
    line: bytes


@dataclass
class Outage:
    """A stretch without network: entries go at its end; `tried` are earlier tries whose receipts were lost."""

    device: str
    start: int
    end: int
    tried: tuple[tuple[int, int], ...] = ()
    """Moment of a try, and how many of the waiting entries it sent."""


@dataclass
class Devices:
    """The boots and outages that are settled; all others follow the week."""

    seed: int
    boots: dict[str, list[Boot]] = field(default_factory=lambda: defaultdict(list))
    outages: list[Outage] = field(default_factory=list)
    calm: frozenset[tuple[str, date]] = frozenset()
    """Devices and days on which no chance touches the network."""

    def send(self, happenings: Iterable[Happening]) -> list[Sent]:
        """Give every sending, in the order the server received them; entries get their ids on the way."""
        by_device: dict[str, list[Happening]] = defaultdict(list)
        for happening in happenings:
            by_device[happening.device].append(happening)
        walls = [outage for device, own in sorted(by_device.items()) for outage in self._walls(device, own)]
        network = replace(self, outages=[*self.outages, *walls])
        logs = {device: _Log(network, device, own) for device, own in sorted(by_device.items())}
        sent = [sending for log in logs.values() for sending in log.sendings()]
        return sorted(sent, key=lambda sending: (sending.received, sending.id))

    def _walls(self, device: str, own: Iterable[Happening]) -> Iterator[Outage]:
        """Thick walls: on one day in twelve a booth's tablet is without network for a while before noon."""
        for day in sorted(_days(own)) if device in THICK_WALLS else ():
            dice = Dice(self.seed, "walls", device, day)
            if dice.chance(1 / 12) and (device, day) not in self.calm:
                start = at(day, "08:30") + dice.whole(0, 90) * MINUTE
                yield Outage(device, start, start + dice.whole(12, 45) * MINUTE)


class _Log:
    """One device's log: its entries in the order they were tapped."""

    def __init__(self, devices: Devices, device: str, own: list[Happening]) -> None:
        self.devices, self.device = devices, device
        self.own = sorted(own, key=lambda happening: happening.tapped)
        self.boots = self._boots()
        self.starts = [boot.start for boot in self.boots]
        self.dice = Dice(devices.seed, "network", device)
        self.outages = [outage for outage in devices.outages if outage.device == device]
        self.places = [self._places(outage) for outage in self.outages]
        self.written = 0
        for number, happening in enumerate(self.own, start=1):
            boot = self._boot(happening.tapped)
            happening.id = f"{device}:{boot.id}:{number}" if device != IMPORT else f"{device}:{number}"
            happening.shown = happening.at + self._off(happening.tapped)

    def sendings(self) -> Iterator[Sent]:
        for number, happening in enumerate(self.own, start=1):
            line = self._line(happening, number)
            for sent in self._sent(happening):
                self.written += 1
                yield self._sending(sent, line)

    def _sending(self, sent: int, line: bytes) -> Sent:
        if self.device == IMPORT:
            return Sent(sent, f"{IMPORT}-{self.written}", IMPORT, None, line)
        received = sent + self.dice.whole(40, 400)
        return Sent(received, f"{self.device}-d{self.written}", self.device, sent + self._off(sent), line)

    def _sent(self, happening: Happening) -> list[int]:
        if happening.sent is not None or self.device == IMPORT:
            return [happening.sent or happening.tapped]
        for outage, places in zip(self.outages, self.places, strict=True):
            if outage.start <= happening.tapped < outage.end:
                return self._waiting(outage, places[id(happening)])
        return [happening.tapped + self.dice.whole(300, 2500)]

    def _places(self, outage: Outage) -> dict[int, int]:
        """Give the place in the outbox of everything that waits through an outage."""
        waiting = [other for other in self.own if outage.start <= other.tapped < outage.end]
        return {id(other): place for place, other in enumerate(waiting)}

    def _waiting(self, outage: Outage, place: int) -> list[int]:
        tries = [moment + SPACING_MS * place for moment, count in outage.tried if place < count]
        return [*tries, outage.end + SPACING_MS * place]

    def _line(self, happening: Happening, number: int) -> bytes:
        off = self._off(happening.tapped)
        head: dict[str, Any] = {
            "id": happening.id,
            "device": self.device,
            "seq": number,
            "device_time": iso(happening.tapped + off),
            "happened": iso(happening.at + off),
            "who": happening.who,
        }
        if self.device != IMPORT:
            boot = self._boot(happening.tapped)
            head |= {"boot": boot.id, "mono_ms": happening.tapped - boot.start}
        if happening.late_reason:
            head["late_reason"] = happening.late_reason
        moments = {name: iso(moment + off) for name, moment in happening.moments.items()}
        fields = {name: named(value) for name, value in happening.fields.items()}
        return json_line({**head, **fields, **moments}).encode()

    def _boots(self) -> list[Boot]:
        settled = sorted(self.devices.boots.get(self.device, []))
        weeks = sorted({_monday(day) for day in _days(self.own)})
        boots = [self._weekly(monday) for monday in weeks]
        for boot in settled:
            boots = [other for other in boots if not boot.start <= other.start < (boot.mended_at or boot.start)]
        return sorted([*boots, *settled])

    def _weekly(self, monday: date) -> Boot:
        dice = Dice(self.devices.seed, "boot", self.device, monday)
        return Boot(at(monday, "06:00") - dice.whole(0, 90) * MINUTE, dice.hexes(4), dice.whole(60, 1800))

    def _boot(self, moment: int) -> Boot:
        return self.boots[max(bisect_right(self.starts, moment) - 1, 0)]

    def _off(self, moment: int) -> int:
        if self.device == IMPORT:
            return 0
        boot = self._boot(moment)
        return 400 if boot.mended_at is not None and moment >= boot.mended_at else boot.off_ms


def iso(moment_ms: int) -> str:
    """Write a moment as the log does.

    >>> iso(1500)
    '1970-01-01T00:00:01.500Z'
    """
    day, within = divmod(moment_ms, 86_400_000)
    minutes, ms = divmod(within, 60_000)
    return f"{_day(day)}T{minutes // 60:02d}:{minutes % 60:02d}:{ms // 1000:02d}.{ms % 1000:03d}Z"


@cache
def _day(day: int) -> str:
    return (date(1970, 1, 1) + timedelta(days=day)).isoformat()


def named(value: Any) -> Any:
    """Put the id of an entry where the entry itself stands, and the key of a finding where it is told of."""
    if isinstance(value, KeyOf):
        return f"{value.thing}@{iso(value.happening.shown)[:19]}Z|{value.question}"
    return value.id if isinstance(value, Happening) else value


def _days(own: Iterable[Happening]) -> set[date]:
    """Give the shop's days on which something was tapped; its midnights are whole hours."""
    return {clock_of(hour * HOUR).date() for hour in {happening.tapped // HOUR for happening in own}}


def _monday(day: date) -> date:
    return date.fromordinal(day.toordinal() - day.weekday())
