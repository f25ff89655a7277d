"""What the receipt of an understood entry remarks on; the entry is taken all the same, and nothing is decided here."""

from collections.abc import Iterator

from server.facts.log import AnyEntry
from server.facts.moment import show_moment
from server.facts.registers import Registers
from server.work.sent_delivery import SentDelivery

CLOCK_WORTH_SAYING_MS = 120_000


def remarks_on(entry: AnyEntry, sent: SentDelivery, registers: Registers) -> str | None:
    """Say what is strange about an entry: its device's clock, or a name the record does not know; none: nothing."""
    return "; ".join((*_clock(sent), *_who(entry, registers), *_where(entry, registers))) or None


def _clock(sent: SentDelivery) -> Iterator[str]:
    if sent.sent_ms is not None and abs(sent.sent_ms - sent.received_ms) > CLOCK_WORTH_SAYING_MS:
        minutes = round(abs(sent.sent_ms - sent.received_ms) / 60_000)
        side = "ahead" if sent.sent_ms > sent.received_ms else "behind"
        yield (
            f"the clock of {sent.device} said {show_moment(sent.sent_ms)} when the record's said "
            f"{show_moment(sent.received_ms)}, {minutes // 60} h {minutes % 60} min {side}; set it right"
        )


def _who(entry: AnyEntry, registers: Registers) -> Iterator[str]:
    if entry.who not in registers.people:
        yield f"who is {entry.who!r}, whom the record does not know; enter that person, or correct the entry"


def _where(entry: AnyEntry, registers: Registers) -> Iterator[str]:
    frame, joint = entry.told("frame"), entry.told("joint")
    if frame is None:
        return
    packet = registers.packets.get(frame)
    if packet is None:
        yield f"frame is {frame!r}, which has no packet; issue one, or correct the entry"
    elif joint is not None and (design := registers.designs.get(packet.design)):
        known = [each.id for each in design.joints]
        if joint not in known:
            yield f"joint is {joint!r}; {design.name} has {', '.join(known)}; correct the entry"
