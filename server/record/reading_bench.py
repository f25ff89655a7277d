"""The questions a bench tablet's sheet asks: entries as they were sent, what is on the lines, what is open."""

from collections.abc import Collection, Iterable

from sqlalchemy import and_, func, or_, select

from server.record.asking import Asking
from server.record.at_benches import AtBenches, Row, Things, with_rows
from server.record.tables.columns import LINE, LINE_TABLE, LINK, LINK_TABLE

_UNDERSTOOD = select(LINE.position, LINE.body).where(LINE.kind == "entry", LINE.state == "taken")
_OF_NO_FRAME = _UNDERSTOOD.where(LINE.frame.is_(None), LINE.entry_kind.in_(("correction", "cylinder", "sleeve")))

_LAST_BEADS = 5
# A weekly bead of a busy line lies well within; a line without beads is not walked through from its beginning.
_LOOKED_BACK = 4000

_CHANGES = _UNDERSTOOD.where(LINE.frame.is_(None), LINE.entry_kind.in_(("cylinder", "sleeve")))


class BenchReads(Asking):
    """What a tablet is given ahead of time, in a fixed number of statements."""

    def bodies_for_bench(self, frames: Collection[str]) -> list[bytes]:
        """Give the understood entries of some frames, and the corrections bound to no frame, as they were sent."""
        asked = _UNDERSTOOD.where(LINE.frame.in_(sorted(frames)))
        rows = [*map(tuple, self._connection.execute(asked)), *self.at_benches().corrections]
        return [body for _, body in sorted(rows)]

    def at_benches(self) -> AtBenches:
        """Give the last cylinder of each line and what is open of the sleeves; the writer's own turn reads it anew."""
        position = self.last_position()
        if self._kept is not None:
            return with_rows(AtBenches(), self._read_of_no_frame(0, position))
        return self._remembered.at_benches.up_to(position, self._read_of_no_frame, self._read_about)

    def last_beads(self, line: str) -> list[bytes]:
        """Give the last few beads of a gas line as they were sent, however they turned out."""
        of_line = LINK.kind == "gas line", LINK.id == line
        newest = select(func.max(LINK.number)).where(*of_line).scalar_subquery()
        beads = select(LINE.body).join_from(LINK_TABLE, LINE_TABLE, LINE.position == LINK.position)
        beads = beads.where(*of_line, LINK.number > newest - _LOOKED_BACK)
        beads = beads.where(LINE.entry_kind == "bead", LINE.state == "taken")
        return list(self._connection.execute(beads.order_by(LINK.number.desc()).limit(_LAST_BEADS)).scalars())

    def _read_of_no_frame(self, after: int, position: int) -> Iterable[Row]:
        asked = _OF_NO_FRAME.where(LINE.position > after, LINE.position + 0 <= position)
        return sorted((each.position, each.body) for each in self._connection.execute(asked))

    def _read_about(self, things: Things, position: int) -> Iterable[Row]:
        about = or_(*(and_(LINK.kind == kind, LINK.id == name) for kind, name in things))
        told = select(LINK.position).where(about)
        asked = _CHANGES.where(LINE.position.in_(told), LINE.position <= position)
        return sorted((each.position, each.body) for each in self._connection.execute(asked))
