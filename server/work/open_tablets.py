"""Tells which tablets had a frame open and have not said that they closed it: what lies on them nobody has read."""

from collections.abc import Iterable
from typing import NamedTuple

from server.facts.passage import Opened
from server.facts.recorded import Recorded


class OpenTablet(NamedTuple):
    """A tablet with a frame open on it, since the server took the entry that says so [ms, UTC]."""

    frame: str
    device: str
    since_ms: int


def open_tablets(entries: Iterable[Recorded]) -> list[OpenTablet]:
    """Give the tablets whose last word on a frame, as the record came to know it, is that they opened it."""
    last: dict[tuple[str, str], Recorded] = {}
    for each in sorted(entries, key=_position):
        if isinstance(each.entry, Opened):
            last[each.entry.frame, each.entry.device] = each
    return [
        OpenTablet(frame, device, each.received_ms)
        for (frame, device), each in sorted(last.items())
        if isinstance(each.entry, Opened) and each.entry.act == "opened"
    ]


def _position(recorded: Recorded) -> int:
    return recorded.position
