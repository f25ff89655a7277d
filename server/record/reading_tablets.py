"""Questions for tablets: how far one has counted, and when the record last got anything from some."""

from collections.abc import Collection

from sqlalchemy import func, select

from server.record.reading_clocks import ClockReads
from server.record.tables.columns import LINE
from server.record.tables.sealed import UNCLOCKED

# Almost everything a tablet sends tells how its clock stood and is carried by its boots; the few other lines are asked.
_COUNTED = select(func.max(LINE.seq)).where(UNCLOCKED, LINE.kind == "entry")
_LAST = select(LINE.device, func.max(LINE.received_ms)).where(UNCLOCKED)


class TabletReads(ClockReads):
    """What tells a tablet from another, however much each has sent."""

    def counted_by(self, device: str) -> int:
        """Give the highest count seen of a device's entries; 0 when it never sent one."""
        heard = [each.last_seq for each in self.heard_of([device], self.last_position())]
        other = self._connection.execute(_COUNTED.where(LINE.device == device)).scalar()
        return max([*heard, other or 0])

    def last_heard(self, devices: Collection[str]) -> dict[str, int]:
        """Give when the last line of each of these devices came in [ms, UTC]; what never sent one is left out."""
        asked = _LAST.where(LINE.device.in_(sorted(devices))).group_by(LINE.device)
        found = {row[0]: row[1] for row in self._connection.execute(asked)}
        for each in self.heard_of(devices, self.last_position()):
            found[each.device] = max(each.last_received_ms, found.get(each.device, 0))
        return found
