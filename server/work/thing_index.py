"""Which frames used each thing, with how many joints and where they are; carried on by the frames that changed."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

from server.facts.in_parts import in_parts
from server.facts.layered import layered
from server.occasions.filed import in_order_again
from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.work.frame_places import PLACES, Place
from server.work.frame_things import FrameRow, Key, OfFrame, of_bits, of_frame, readers
from server.work.thing_changes import Seen, changed_frames
from server.work.what_things import COUNTED, Kind, Thing

_NAME = "frames by thing"
OUT_OF_THE_HOUSE: tuple[Place, ...] = ("shipped", "back in the house")
_Left = Mapping[str, int]


class AtPlace(NamedTuple):
    """What used a thing and is at one place: the frames in the order of their last passes; how many joints in one
    attempt, and how many whatever the attempt."""

    rows: Sequence[FrameRow]
    joints: int
    standing: int


_NOTHING = AtPlace((), 0, 0)


class ThingIndex(NamedTuple):
    """Everything by thing, as known at one state of the shop."""

    seen: Seen
    frames: Mapping[str, OfFrame]
    places: Mapping[Key, AtPlace]
    left: Mapping[Kind, _Left]
    """By kind and thing, how many joints left the house with their frame; what stays the same is the same object."""
    uses: Mapping[Thing, Sequence[Use]]
    """In true time."""

    def at(self, thing: Thing, place: Place) -> AtPlace:
        """Give what used a thing and is at a place."""
        return self.places.get((thing, place), _NOTHING)

    def row_counts(self, thing: Thing) -> int:
        """Give in how many rows a thing stands."""
        return sum(len(rows) for _, rows in self.rows_of(thing))

    def rows_of(self, thing: Thing) -> list[tuple[Place, Sequence[FrameRow]]]:
        """Give the rows of a thing by place."""
        return [(place, at.rows) for place in PLACES if (at := self.at(thing, place)).rows]

    def standing_at(self, thing: Thing, places: Iterable[Place]) -> int:
        """Give how many joints used a thing, whatever the attempt, and are at one of these places."""
        return sum(self.at(thing, place).standing for place in places)

    def names(self, kind: Kind) -> list[str]:
        """Give every thing of one kind that stands under a pass."""
        return sorted(thing.name for thing in self.uses if thing.kind == kind)


def thing_index(tables: Tables) -> ThingIndex:
    """Give the index of this state, carried on from the last one that was asked for."""
    return tables.made_of.kept(_NAME, (tables.uses,), lambda known: _carried_on(known, tables))


def _carried_on(known: ThingIndex | None, tables: Tables) -> ThingIndex:
    """Read the frames that changed anew and put what they used in the place of what they did; of nothing, all."""
    seen = Seen.of(tables)
    changed = changed_frames(known.seen, seen) if known else tables.uses.by_frame
    read = readers(tables)
    before = known.frames if known else {}
    gone = {frame: before[frame] for frame in changed if frame in before}
    more = {
        frame: of_frame(tables, read, uses, home=frame in seen.back)
        for frame in changed
        if (uses := tables.uses.by_frame.get(frame))
    }
    frames = layered(before, more, empty=gone.keys() - more.keys())
    places = _places(known, gone, more)
    every = layered(known.places if known else {}, places, empty=[key for key, at in places.items() if not at.rows])
    uses_of = _uses(known, tables, gone, more) if known else _every_use(tables, frames)
    return ThingIndex(seen, frames, every, _left(known, every, places), uses_of)


_Changed = Mapping[str, OfFrame]


def _places(known: ThingIndex | None, gone: _Changed, more: _Changed) -> dict[Key, AtPlace]:
    """What stands otherwise at its place than before."""
    out, into = ([row for each in changed.values() for row in each.rows] for changed in (gone, more))
    if same := set(out) & set(into) if out else set():
        out, into = ([row for row in rows if row not in same] for rows in (out, into))
    went, came = _by_key(out), _by_key(into)
    return {
        key: _again(known.at(*key) if known else _NOTHING, went.get(key, ()), came.get(key, ()))
        for key in went.keys() | came.keys()
    }


def _again(at: AtPlace, went: Sequence[FrameRow], came: Sequence[FrameRow]) -> AtPlace:
    joints = at.joints + sum(row.joints for row in came) - sum(row.joints for row in went)
    standing = at.standing + sum(row.standing for row in came) - sum(row.standing for row in went)
    return AtPlace(in_order_again(at.rows, went, came, _by_last_pass), joints, standing)


def _left(known: ThingIndex | None, places: Mapping[Key, AtPlace], changed: Iterable[Key]) -> Mapping[Kind, _Left]:
    things: dict[Kind, set[Thing]] = defaultdict(set)
    for thing, place in changed:
        if place in OUT_OF_THE_HOUSE and thing.name and thing.kind in COUNTED:
            things[thing.kind].add(thing)
    found: dict[Kind, _Left] = dict(known.left) if known else {}
    for kind, of_kind in things.items():
        counts = {
            thing.name: sum(places.get((thing, place), _NOTHING).standing for place in OUT_OF_THE_HOUSE)
            for thing in of_kind
        }
        none = [name for name, count in counts.items() if not count]
        found[kind] = layered(found.get(kind, {}), counts, empty=none)
    return {kind: of_kind for kind, of_kind in found.items() if of_kind}


def _uses(known: ThingIndex, tables: Tables, gone: _Changed, more: _Changed) -> Mapping[Thing, Sequence[Use]]:
    before, now = known.seen.uses.by_frame, tables.uses.by_frame
    went = _used_by_thing((before[frame], each) for frame, each in gone.items())
    came = _used_by_thing((now[frame], each) for frame, each in more.items())
    found: dict[Thing, Sequence[Use]] = {}
    for thing in went.keys() | came.keys():
        out, into = went.get(thing, {}), came.get(thing, {})
        leaving = [use for name, use in out.items() if into.get(name) != use]
        coming = [use for name, use in into.items() if out.get(name) != use]
        if leaving or coming:
            found[thing] = in_order_again(known.uses.get(thing, ()), leaving, coming, _in_true_time)
    return layered(known.uses, found, empty=[thing for thing, uses in found.items() if not uses])


def _every_use(tables: Tables, frames: Mapping[str, OfFrame]) -> dict[Thing, Sequence[Use]]:
    found: dict[Thing, list[Use]] = defaultdict(list)
    number: dict[str, int] = defaultdict(int)
    for use in tables.uses.all:
        at = number[use.frame]
        number[use.frame] += 1
        for thing, bits in frames[use.frame].used.items():
            if bits >> at & 1 and thing.name:
                found[thing].append(use)
    return {thing: in_parts(uses) for thing, uses in found.items()}


def _used_by_thing(frames: Iterable[tuple[Sequence[Use], OfFrame]]) -> dict[Thing, dict[str, Use]]:
    found: dict[Thing, dict[str, Use]] = defaultdict(dict)
    for uses, each in frames:
        for thing, bits in each.used.items():
            if thing.name:
                found[thing].update((use.entry, use) for use in of_bits(uses, bits))
    return found


def _by_key(rows: Iterable[FrameRow]) -> dict[Key, list[FrameRow]]:
    found: dict[Key, list[FrameRow]] = defaultdict(list)
    for row in rows:
        found[row.key].append(row)
    return found


def _by_last_pass(row: FrameRow) -> tuple[int, str]:
    return row.last_ms, row.frame


def _in_true_time(use: Use) -> tuple[int, str, int, int]:
    return use.at.at_ms, use.at.device, use.at.seq, use.position
