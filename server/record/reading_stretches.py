"""The question for what a stretch of the record tells of the shop as a whole, and for what was told before, again."""

from collections.abc import Collection, Iterable
from typing import Any, NamedTuple

from sqlalchemy import Row, and_, case, or_, select, union_all

from server.facts.clock import ClockPair
from server.facts.recorded import Recorded
from server.occasions.uses import READ_OF_A_PASS
from server.record.asking import Asking
from server.record.bytes_held import holds_any
from server.record.kept_nouns import KEPT_ENTRIES, in_short
from server.record.tables.columns import LINE
from server.record.tables.sealed import CLOCKED

_KINDS = ("pass", "photo", "correction", "trace", "arrived")
_UNDERSTOOD = and_(LINE.kind == "entry", LINE.state == "taken")
_OF_THE_SHOP = and_(_UNDERSTOOD, or_(LINE.entry_kind.in_(_KINDS), LINE.frame.is_(None)))
_STAGE = and_(_UNDERSTOOD, LINE.entry_kind == "stage")
# A body with an escape in it may say anything.
_CAME_BACK = (b"returned", b"\\")
_ENTRY = (LINE.position, LINE.received_ms, LINE.sent_ms, LINE.entry_kind)
_SENT = and_(LINE.kind == "entry", LINE.state.in_(("taken", "taken before")), LINE.device_ms.is_not(None))
_CLOCK = (case((_SENT, LINE.device_ms)).label("device_ms"), LINE.device, LINE.boot, LINE.seq, LINE.mono_ms)
_PASSES_IN_SHORT = in_short(READ_OF_A_PASS)
_AT_ONCE = 100
_new = tuple.__new__


class Told(NamedTuple):
    """What some lines tell of the shop: clock pairs, entries of no frame or mending one, passes in short, pictures,
    stages that may say that a frame came back."""

    clocks: list[ClockPair]
    shared: list[Recorded]
    passes: list[Recorded]
    photos: list[Recorded]
    returned: list[Recorded]


class StretchReads(Asking):
    """Stretches of the record, read once each."""

    def told_between(self, after: int, position: int) -> Told:
        """Give what the lines behind one position tell, up to another."""
        found = Told([], [], [], [], [])
        came_back = and_(_STAGE, holds_any(self._connection.dialect.name, _CAME_BACK))
        body = case((or_(_OF_THE_SHOP, came_back), LINE.body)).label("body")
        asked = select(*_ENTRY, body, *_CLOCK).where(LINE.kind == "entry").order_by(LINE.position)
        asked = asked.where(LINE.position > after, LINE.position <= position)
        for row in self._connection.execute(asked):
            at, received_ms, sent_ms, kind, body, device_ms, device, boot, seq, mono_ms = row
            if device_ms is not None:
                found.clocks.append(_new(ClockPair, (device, boot, seq, mono_ms, device_ms, sent_ms, received_ms)))
            if body is not None:
                _put(found, kind, (at, received_ms, sent_ms, body))
        return found

    def told_again(self, boots: Collection[tuple[str, str | None]], names: Collection[str], up_to: int) -> Told:
        """Give what was told by some boots, and under some ids, up to a position; each entry once."""
        every = (*self._of_boots(sorted(boots, key=str), up_to), *self._named(names, up_to))
        rows = {row[0]: tuple(row) for row in every}
        found = Told([], [], [], [], [])
        for at in sorted(rows):
            _, received_ms, sent_ms, kind, body = rows[at]
            _put(found, kind, (at, received_ms, sent_ms, body))
        return found

    def _of_boots(self, boots: list[tuple[str, str | None]], up_to: int) -> Iterable[Row[Any]]:
        for first in range(0, len(boots), _AT_ONCE):
            # SQLite looks up one boot in the index, but neither a list of boots nor one of pairs.
            each_boot = (
                select(*_ENTRY, LINE.body).where(CLOCKED, LINE.device == device, LINE.boot == boot, _OF_THE_SHOP)
                for device, boot in boots[first : first + _AT_ONCE]
            )
            asked = union_all(*(one.where(LINE.position + 0 <= up_to) for one in each_boot))
            yield from self._connection.execute(asked)

    def _named(self, names: Collection[str], up_to: int) -> Iterable[Row[Any]]:
        if not names:
            return ()
        asked = select(*_ENTRY, LINE.body).where(_OF_THE_SHOP, LINE.id.in_(sorted(names)), LINE.position + 0 <= up_to)
        return self._connection.execute(asked)


def _put(found: Told, kind: str | None, kept: tuple[int, int, int | None, bytes]) -> None:
    read = _PASSES_IN_SHORT if kind == "pass" else KEPT_ENTRIES
    recorded = _new(Recorded, (*kept[:3], read.read(kept[3])))
    if kind == "pass":
        found.passes.append(recorded)
    elif kind in ("photo", "stage"):
        (found.photos if kind == "photo" else found.returned).append(recorded)
    else:
        found.shared.append(recorded)
