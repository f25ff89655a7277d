"""What the receipt of an understood entry remarks on; the entry is taken all the same, and nothing is decided here."""

from typing import NamedTuple

from server.facts.log import AnyEntry
from server.facts.moment import show_moment
from server.facts.registers import Registers
from server.work.sent_delivery import SentDelivery

CLOCK_WORTH_SAYING_MS = 120_000


class Named(NamedTuple):
    """Whom and what an entry names that the record may not know; an entry itself is large, and many wait at a time."""

    who: str
    frame: str | None
    joint: str | None


def named_in(entry: AnyEntry) -> Named:
    """Give whom and what an entry names."""
    return Named(entry.who, entry.told("frame"), entry.told("joint"))


def remarks_on(named: Named, sent: SentDelivery, registers: Registers) -> str | None:
    """Say what is strange about an entry: its device's clock, or a name the record does not know; none: nothing."""
    return "; ".join(_clock(sent) + _who(named.who, registers) + _where(named, registers)) or None


def _clock(sent: SentDelivery) -> list[str]:
    sent_ms, received_ms = sent.sent_ms, sent.received_ms
    if sent_ms is None or abs(sent_ms - received_ms) <= CLOCK_WORTH_SAYING_MS:
        return []
    minutes = round(abs(sent_ms - received_ms) / 60_000)
    side = "ahead" if sent_ms > received_ms else "behind"
    told = f"the clock of {sent.device} said {show_moment(sent_ms)} when the record's said {show_moment(received_ms)}"
    return [f"{told}, {minutes // 60} h {minutes % 60} min {side}; set it right"]


def _who(who: str, registers: Registers) -> list[str]:
    if who in registers.people:
        return []
    return [f"who is {who!r}, whom the record does not know; enter that person, or correct the entry"]


def _where(named: Named, registers: Registers) -> list[str]:
    _, frame, joint = named
    if frame is None:
        return []
    packet = registers.packets.get(frame)
    if packet is None:
        return [f"frame is {frame!r}, which has no packet; issue one, or correct the entry"]
    design = None if joint is None else registers.designs.get(packet.design)
    known = [each.id for each in design.joints] if design else []
    if design is None or joint in known:
        return []
    return [f"joint is {joint!r}; {design.name} has {', '.join(known)}; correct the entry"]
