"""An entry that the service itself writes for somebody signed in, on its way in like any tablet's."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from server.evidence.canonical import canonical_line
from server.facts.moment import show_moment
from server.record.lines import HOUSE
from server.work.sent_delivery import SentDelivery


@dataclass(frozen=True, slots=True)
class Writing:
    """Who writes, in which role, at which moment [ms, UTC], after which position of the record."""

    who: str
    role: str | None
    now_ms: int
    after: int


def house_entry(name: str, writing: Writing, told: Mapping[str, Any]) -> SentDelivery:
    """Make the entry's line; its id is made from what it tells, so that a click twice is one entry.

    Its place in the house's own count is the record's, which only grows; there is no steady counter to give.
    """
    at = show_moment(writing.now_ms)
    head: dict[str, Any] = {
        "id": house_entry_id(name),
        "device": HOUSE,
        "seq": writing.after + 1,
        "device_time": at,
        "happened": at,
        "who": writing.who,
        "role": writing.role,
    }
    line = {key: value for key, value in (head | dict(told)).items() if value is not None}
    return SentDelivery(house_entry_id(name), HOUSE, None, writing.now_ms, canonical_line(line))


def house_entry_id(name: str) -> str:
    """Give the id an entry of this name has."""
    return f"{HOUSE}:{name}"
