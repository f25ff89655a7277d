"""Questions for clocks: what the boots of some entries told, and when the boots after them were first heard."""

from collections.abc import Collection, Iterable, Iterator, Sequence

from sqlalchemy import func, select, union_all

from server.facts.clock import ClockPair
from server.facts.recorded import Recorded
from server.record.asking import Asking
from server.record.boots_heard import Heard, with_more
from server.record.tables.columns import LINE
from server.record.tables.sealed import CLOCKED

_PAIR = select(*(LINE[name] for name in ClockPair._fields)).where(CLOCKED)
_ENDS = (f(each) for f in (func.min, func.max) for each in (LINE.seq, LINE.received_ms))
_HEARD = select(LINE.device, LINE.boot, *_ENDS).where(CLOCKED).group_by(LINE.device, LINE.boot)
_AT_ONCE = 100


class ClockReads(Asking):
    """Clock pairs of some boots; those of the whole shop are a question for judging."""

    def clock_pairs_for(self, entries: Iterable[Recorded], known_at: int | None = None) -> list[ClockPair]:
        """Give what settles the true times of some entries: all that their boots told, and of each other boot of their
        devices one pair that only says since when it was heard."""
        told = (each.entry for each in entries)
        wanted = {(each.device, each.boot) for each in told if each.boot is not None}
        if not wanted:
            return []
        position = self._no_later(known_at)
        found = [pair for some in _in_parts(sorted(wanted)) for pair in self._pairs_of(some, position)]
        heard = self.heard_of({device for device, _ in wanted}, position)
        return found + [
            ClockPair(each.device, each.boot, each.first_seq, 0, 0, None, each.first_received_ms)
            for each in heard
            if (each.device, each.boot) not in wanted
        ]

    def boots_heard(self, known_at: int | None = None) -> dict[str, dict[str, Heard]] | None:
        """Give every boot of every device as it is carried; none where only a question to the database can tell."""
        position = self._no_later(known_at)
        newest = self._kept is None and position == self.last_position()
        return self._remembered.boots.up_to(position, self._read_heard) if newest else None

    def _pairs_of(self, boots: Sequence[tuple[str, str]], position: int) -> Iterator[ClockPair]:
        # SQLite looks up one boot in the index, but neither a list of boots nor one of pairs.
        each_boot = (_PAIR.where(LINE.device == device, LINE.boot == boot) for device, boot in boots)
        asked = union_all(*(one.where(LINE.position + 0 <= position) for one in each_boot))
        return (ClockPair(*row) for row in self._connection.execute(asked))

    def heard_of(self, devices: Collection[str], position: int) -> list[Heard]:
        """Give every boot of some devices as known at a position."""
        known = self.boots_heard(position)
        if known is None:
            # Adding nothing keeps the database from walking through the lines in their order for a bound on it.
            asked = _HEARD.where(LINE.device.in_(sorted(devices)), LINE.position + 0 <= position)
            known = with_more({}, (Heard(*row) for row in self._connection.execute(asked)))
        return [each for device in sorted(devices) for each in known.get(device, {}).values()]

    def _read_heard(self, after: int, position: int) -> Iterable[Heard]:
        asked = _HEARD.where(LINE.position > after, LINE.position <= position) if after else _HEARD
        return [Heard(*row) for row in self._connection.execute(asked)]


def _in_parts(boots: Sequence[tuple[str, str]]) -> Iterator[Sequence[tuple[str, str]]]:
    return (boots[first : first + _AT_ONCE] for first in range(0, len(boots), _AT_ONCE))
