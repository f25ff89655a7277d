"""Who has a frame now: whoever it was last sent to, or whoever is known to own it since."""

from collections.abc import Iterable
from datetime import UTC, date, datetime
from typing import NamedTuple

from server.facts.frame_papers import ownerships_of, shipments_of
from server.facts.orders import Shipment
from server.facts.passage import StageReached
from server.facts.registers import Registers
from server.record.reads import Reads


def last_shipment(registers: Registers, frame: str) -> Shipment | None:
    """Give the last shipment of a frame; none while it has not left the house."""
    sent = shipments_of(registers, frame)
    return max(sent, key=lambda each: each.at) if sent else None


def who_has_it(registers: Registers, frame: str) -> str:
    """Name who has a frame, the later of last shipment and last owner told; empty when nobody outside has it."""
    shipment = last_shipment(registers, frame)
    sent = [(_day(shipment.at), shipment.customer)] if shipment else []
    owned = [(each.since, each.customer) for each in ownerships_of(registers, frame)]
    # An owner told on the day of a shipment comes first in the list, so that the tie is theirs.
    _, named = max([*owned, *sent], key=lambda each: each[0], default=(date.min, ""))
    customer = registers.customers.get(named)
    return customer.name if customer else named


class Gone(NamedTuple):
    """Who has a frame, and when it left last [ms, UTC]."""

    customer: str
    shipped_ms: int | None


def gone(registers: Registers, frame: str) -> Gone:
    """Tell who has a frame, and when it left last."""
    shipment = last_shipment(registers, frame)
    return Gone(who_has_it(registers, frame), shipment.at if shipment else None)


def back_in_house(reads: Reads, registers: Registers, frames: Iterable[str]) -> dict[str, int]:
    """Give the frames that came back and have not left again, with when they came [ms, as the device said]."""
    came: dict[str, int] = {}
    for recorded in reads.stages_of(frames, ("returned",)):
        it = recorded.entry
        if isinstance(it, StageReached) and it.stage == "returned":
            came[it.frame] = max(it.happened, came.get(it.frame, 0))
    sent = {frame: last_shipment(registers, frame) for frame in came}
    return {frame: at_ms for frame, at_ms in came.items() if (last := sent[frame]) is None or last.at < at_ms}


def _day(moment_ms: int) -> date:
    return datetime.fromtimestamp(moment_ms / 1000, UTC).date()
