"""Questions a bench tablet's sheet asks: entries as they were sent, and how far a device has counted."""

from collections.abc import Collection

from sqlalchemy import and_, func, or_, select

from server.record.asking import Asking
from server.record.tables.columns import LINE


class BenchReads(Asking):
    """What a tablet is given ahead of time, in a fixed number of statements."""

    def bodies_for_bench(self, frames: Collection[str], shared_kinds: Collection[str]) -> list[bytes]:
        """Give the understood entries of some frames, and those of some kinds bound to no frame, as they were sent."""
        understood = and_(LINE.kind == "entry", LINE.state == "taken")
        shared = and_(LINE.frame.is_(None), LINE.entry_kind.in_(sorted(shared_kinds)))
        asked = select(LINE.body).where(understood, or_(LINE.frame.in_(sorted(frames)), shared))
        return list(self._connection.execute(asked.order_by(LINE.position)).scalars())

    def counted_by(self, device: str) -> int:
        """Give the highest count seen of a device's entries; 0 when it never sent one."""
        asked = select(func.max(LINE.seq)).where(LINE.kind == "entry", LINE.device == device)
        return self._connection.execute(asked).scalar() or 0
