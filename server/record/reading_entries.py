"""Questions for entries: of frames, of no frame, of subjects, all of them; as they came, corrections not applied."""

from collections.abc import Collection, Iterable, Iterator
from operator import itemgetter
from typing import Any

from sqlalchemy import (
    BindParameter,
    ColumnElement,
    CompoundSelect,
    Select,
    and_,
    bindparam,
    false,
    func,
    or_,
    select,
    tuple_,
)

from server.evidence.chain_subject import ChainSubject
from server.facts.clock import ClockPair
from server.facts.recorded import Recorded
from server.record.asking import Asking, up_to
from server.record.bytes_held import holds_any
from server.record.kept_nouns import KEPT_ENTRIES
from server.record.tables.columns import LINE, LINE_TABLE, LINK, LINK_TABLE
from server.record.tables.sealed import CLOCKED, PHOTO

_UNDERSTOOD = and_(LINE.kind == "entry", LINE.state == "taken")
_COLUMNS = (LINE.position, LINE.received_ms, LINE.sent_ms, LINE.body)
_ENTRIES = select(*_COLUMNS).where(_UNDERSTOOD)
_PAIRS = select(LINE.position, *(LINE[name] for name in ClockPair._fields)).where(
    LINE.kind == "entry", LINE.state.in_(("taken", "taken before")), LINE.device_ms.is_not(None)
)

# Said so that no index serves it: asked for several frames, SQLite would go through every line of no frame otherwise.
_OF_NO_FRAME = func.coalesce(LINE.frame, "") == ""


def _of_frames() -> CompoundSelect[Any]:
    wanted: BindParameter[Any] = bindparam("frames", expanding=True)
    known = LINE.position <= bindparam("known_at")
    named = LINE_TABLE.alias("named")
    of_frame = select(*_COLUMNS, LINE.frame).where(_UNDERSTOOD, LINE.frame.in_(wanted), known)
    # What mends an entry may have come before it, and then could not yet be put under its frame.
    mending = (
        select(*_COLUMNS, named.c.frame)
        .join_from(LINE_TABLE, named, and_(LINE.of == named.c.id, named.c.state == "taken"))
        .where(_UNDERSTOOD, _OF_NO_FRAME, named.c.frame.in_(wanted), known)
    )
    return of_frame.union_all(mending)


def _one_of(subjects: Iterable[ChainSubject]) -> ColumnElement[bool]:
    """Say that a place is in one of these chains; SQLite looks up a name in an index, but no pair of kind and name."""
    names: dict[str, set[str]] = {}
    for kind, name in subjects:
        names.setdefault(kind, set()).add(name)
    return or_(false(), *(and_(LINK.kind == kind, LINK.id.in_(sorted(of_kind))) for kind, of_kind in names.items()))


_OF_FRAMES = _of_frames()
_STREAMED = {"yield_per": 2000}
_A_DAY_MS = 86_400_000
# Made for every line read; past the named fields' own checking they cost half.
_new = tuple.__new__


class EntryReads(Asking):
    """Entries as `Recorded`, in the order they became known."""

    def frames_entries(self, frames: Iterable[str], known_at: int | None = None) -> dict[str, list[Recorded]]:
        """Give the entries of several frames in one question, with the corrections and traces that name them."""
        wanted = sorted(set(frames))
        found: dict[str, list[Recorded]] = {frame: [] for frame in wanted}
        asked = {"frames": wanted, "known_at": up_to(known_at)}
        # Put in order here: SQLite would sort them, bodies and all, through a file.
        rows = sorted(self._connection.execute(_OF_FRAMES, asked).all(), key=itemgetter(0))
        # The passes of the whole shop are mostly known already; reading one again is what takes longest here.
        positions = [row[0] for row in rows]
        known = self._remembered.passes.among(positions) | self._remembered.mending.among(positions)
        for position, received_ms, sent_ms, body, frame in rows:
            before = known.get(position)
            entry = KEPT_ENTRIES.read(body) if before is None else before.entry
            found[frame].append(_new(Recorded, (position, received_ms, sent_ms, entry)))
        return found

    def frame_entries(self, frame: str, known_at: int | None = None) -> list[Recorded]:
        """Give the entries of one frame."""
        return self.frames_entries([frame], known_at)[frame]

    def shared_entries(self, known_at: int | None = None) -> list[Recorded]:
        """Give the entries bound to no frame: beads, coupons, checks, cylinder changes, sleeves and their like."""

        def read(after: int, position: int) -> Iterator[tuple[int, Recorded]]:
            asked = _ENTRIES.where(LINE.frame.is_(None), LINE.position > after)
            return ((each.position, each) for each in self._entries(asked, position))

        return self._remembered.shared.up_to(self._no_later(known_at), self._kept, read)

    def entries_by(
        self, subjects: Iterable[ChainSubject], known_at: int | None = None, kinds: Collection[str] | None = None
    ) -> list[Recorded]:
        """Give the entries in the chains of some gas lines, instruments, sleeves or welders, each entry once."""
        asked = _ENTRIES.where(LINE.position.in_(select(LINK.position).where(_one_of(subjects))))
        return list(self._entries(asked if kinds is None else asked.where(LINE.entry_kind.in_(kinds)), known_at))

    def entries_named(self, names: Iterable[str]) -> list[Recorded]:
        """Give the entries of these ids."""
        return list(self._entries(select(*_COLUMNS).where(_UNDERSTOOD, LINE.id.in_(sorted(set(names))))))

    def arrivals_of(self, names: Iterable[str]) -> dict[str, int]:
        """Give when each of these entries was first received [ms, UTC], without reading what it tells."""
        asked = select(LINE.id, LINE.received_ms).where(_UNDERSTOOD, LINE.id.in_(sorted(set(names))))
        return {each.id: each.received_ms for each in self._connection.execute(asked)}

    def stages_of(
        self, frames: Iterable[str], said: Collection[str] = (), known_at: int | None = None
    ) -> list[Recorded]:
        """Give the stages that some frames reached, and that may say one of these texts; all without texts."""
        asked = _ENTRIES.where(LINE.frame.in_(sorted(set(frames))), LINE.entry_kind == "stage")
        if said:
            asked = asked.where(self._may_say(said))
        return list(self._entries(asked, known_at))

    def frames_with(self, subjects: Iterable[ChainSubject]) -> set[str]:
        """Give the frames that have an entry in the chain of one of these gas lines, instruments, sleeves, welders."""
        positions = select(LINK.position).where(_one_of(subjects))
        asked = select(LINE.frame).where(LINE.position.in_(positions), LINE.frame.is_not(None))
        return set(self._connection.execute(asked.distinct()).scalars())

    def frames_beside(self, positions: Iterable[int]) -> set[str]:
        """Give the frames welded on the same gas lines within a day of these passes."""
        reach = (LINK.id, func.min(LINE.happened_ms) - _A_DAY_MS, func.max(LINE.happened_ms) + _A_DAY_MS)
        passes = select(*reach).join_from(LINE_TABLE, LINK_TABLE, LINE.position == LINK.position)
        # Adding nothing keeps SQLite from walking through the chains of all gas lines for the sake of their order.
        of_line = LINK.kind.concat("") == "gas line"
        passes = passes.where(LINK.position.in_(sorted(positions)), of_line).group_by(LINK.id)
        passed = self._connection.execute(passes).all()
        near = [and_(LINK.id == line, LINE.happened_ms.between(since, until)) for line, since, until in passed]
        beside = select(LINE.frame).join_from(LINE_TABLE, LINK_TABLE, LINE.position == LINK.position)
        lines = LINK.id.in_([line for line, _, _ in passed])
        beside = beside.where(LINK.kind == "gas line", lines, LINE.frame.is_not(None), or_(false(), *near))
        return set(self._connection.execute(beside.distinct()).scalars())

    def frames_of_boots(self, positions: Iterable[int]) -> set[str]:
        """Give the frames logged by a device in the same boot as one of these entries, whose times it may settle."""
        heard = select(LINE.device, LINE.boot).where(LINE.position.in_(sorted(positions)), LINE.boot.is_not(None))
        same = tuple_(LINE.device, LINE.boot).in_(heard.distinct())
        asked = select(LINE.frame).where(CLOCKED, same, LINE.frame.is_not(None)).distinct()
        return set(self._connection.execute(asked).scalars())

    def passes(self, known_at: int | None = None) -> list[Recorded]:
        """Give every pass of every frame."""

        def read(after: int, position: int) -> Iterator[tuple[int, Recorded]]:
            asked = _ENTRIES.where(LINE.entry_kind == "pass", LINE.position > after)
            return ((each.position, each) for each in self._entries(asked, position))

        return self._remembered.passes.up_to(self._no_later(known_at), self._kept, read)

    def passes_of(
        self, frames: Iterable[str], said: Collection[str] = (), ids: Collection[str] = (), known_at: int | None = None
    ) -> list[Recorded]:
        """Give the passes of some frames that may say one of these texts, or have one of these ids; all without texts.

        What a body cannot say is not read, which is what takes longest.
        """
        asked = _ENTRIES.where(LINE.frame.in_(sorted(set(frames))), LINE.entry_kind == "pass")
        if said:
            asked = asked.where(or_(LINE.id.in_(sorted(ids)), self._may_say(said)))
        return list(self._entries(asked, known_at))

    def mending_of(self, frames: Iterable[str], known_at: int | None = None) -> list[Recorded]:
        """Give the corrections and traces of the entries of some frames, and each picture's arrival for one."""
        kinds = LINE.entry_kind.in_(("correction", "trace", "arrived"))
        return list(self._entries(_ENTRIES.where(LINE.frame.in_(sorted(set(frames))), kinds), known_at))

    def mending(self, known_at: int | None = None) -> list[Recorded]:
        """Give every correction and trace of an entry that belongs to a frame, and each picture's arrival for one."""

        def read(after: int, position: int) -> Iterator[tuple[int, Recorded]]:
            kinds = LINE.entry_kind.in_(("correction", "trace", "arrived"))
            asked = _ENTRIES.where(kinds, LINE.frame.is_not(None), LINE.position > after)
            return ((each.position, each) for each in self._entries(asked, position))

        return self._remembered.mending.up_to(self._no_later(known_at), self._kept, read)

    def photos(self, known_at: int | None = None) -> list[Recorded]:
        """Give every photo that was logged."""
        return list(self._entries(_ENTRIES.where(PHOTO), known_at))

    def every_entry(self, known_at: int | None = None) -> Iterator[Recorded]:
        """Go through all entries in one scan."""
        return self._entries(_ENTRIES, known_at)

    def clock_pairs(self, known_at: int | None = None) -> list[ClockPair]:
        """Give what every sending tells about its device's clock, repeats included."""

        def read(after: int, position: int) -> Iterator[tuple[int, ClockPair]]:
            asked = _PAIRS.where(LINE.position > after, LINE.position <= position).order_by(LINE.position)
            rows = self._connection.execute(asked, execution_options=_STREAMED)
            return ((row[0], _new(ClockPair, row[1:])) for some in rows.partitions() for row in some)

        return self._remembered.clock_pairs.up_to(self._no_later(known_at), self._kept, read)

    def _may_say(self, texts: Iterable[str]) -> ColumnElement[bool]:
        # A body with an escape in it may say anything.
        return holds_any(self._connection.dialect.name, [b"\\", *(each.encode() for each in texts)])

    def _entries(self, asked: Select[Any], known_at: int | None = None) -> Iterator[Recorded]:
        asked = asked.where(LINE.position <= up_to(known_at)).order_by(LINE.position)
        rows = self._connection.execute(asked, execution_options=_STREAMED)
        # Asked row by row, the driver's rows cost as much again as reading what stands in them.
        for some in rows.partitions():
            for position, received_ms, sent_ms, body in some:
                yield _new(Recorded, (position, received_ms, sent_ms, KEPT_ENTRIES.read(body)))
