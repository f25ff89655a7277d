"""Which frames used each thing, with how many joints and where they are; carried on by the frames that changed."""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from typing import NamedTuple

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


class ThingIndex(NamedTuple):
    """Everything by thing, as known at one state of the shop."""

    seen: Seen
    frames: Mapping[str, OfFrame]
    rows: Mapping[Key, Sequence[FrameRow]]
    """In the order of their last passes."""
    joints: Mapping[Key, int]
    standing: Mapping[Key, int]
    left: Mapping[Kind, _Left]
    """By kind and thing, how many joints left the house with their frame; what stays the same is the same object."""
    uses: Mapping[Thing, Sequence[Use]]
    """In true time."""

    def row_counts(self, thing: Thing) -> int:
        """Give in how many rows a thing stands."""
        return sum(len(rows) for _, rows in self.rows_of(thing))

    def rows_of(self, thing: Thing) -> list[tuple[Place, Sequence[FrameRow]]]:
        """Give the rows of a thing by place."""
        return [(place, self.rows[thing, place]) for place in PLACES if (thing, place) in self.rows]

    def standing_at(self, thing: Thing, places: Iterable[Place]) -> int:
        """Give how many joints used a thing, whatever the attempt, and are at one of these places."""
        return sum(self.standing.get((thing, place), 0) for place in places)

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
    frames = dict(known.frames) if known else {}
    gone: dict[str, OfFrame] = {}
    more: dict[str, OfFrame] = {}
    for frame in changed:
        if (before := frames.pop(frame, None)) is not None:
            gone[frame] = before
        if uses := tables.uses.by_frame.get(frame):
            frames[frame] = more[frame] = of_frame(tables, read, uses, home=frame in seen.back)
    filed = _rows(known, gone, more)
    uses_of = _uses(known, tables, gone, more) if known else _every_use(tables, frames)
    return ThingIndex(seen, frames, *filed, uses_of)


_Changed = Mapping[str, OfFrame]


def _rows(known: ThingIndex | None, gone: _Changed, more: _Changed) -> "_Filed":
    out, into = ([row for each in changed.values() for row in each.rows] for changed in (gone, more))
    if same := set(out) & set(into) if out else set():
        out, into = ([row for row in rows if row not in same] for rows in (out, into))
    joints, standing = (dict(known.joints), dict(known.standing)) if known else ({}, {})
    for sign, changed in ((-1, out), (1, into)):
        for row in changed:
            joints[row.key] = joints.get(row.key, 0) + sign * row.joints
            standing[row.key] = standing.get(row.key, 0) + sign * row.standing
    rows: dict[Key, Sequence[FrameRow]] = dict(known.rows) if known else {}
    went, came = _by_key(out), _by_key(into)
    for key in went.keys() | came.keys():
        rows[key] = in_order_again(rows.get(key, ()), went.get(key, ()), came.get(key, ()), _by_last_pass)
        if not rows[key]:
            del rows[key], joints[key], standing[key]
    return _Filed(rows, joints, standing, _left(known, standing, went.keys() | came.keys()))


class _Filed(NamedTuple):
    rows: Mapping[Key, Sequence[FrameRow]]
    joints: Mapping[Key, int]
    standing: Mapping[Key, int]
    left: Mapping[Kind, _Left]


def _left(known: ThingIndex | None, standing: Mapping[Key, int], changed: Iterable[Key]) -> Mapping[Kind, _Left]:
    things: dict[Kind, set[Thing]] = defaultdict(set)
    for thing, place in changed:
        if place in OUT_OF_THE_HOUSE and thing.name and thing.kind in COUNTED:
            things[thing.kind].add(thing)
    found: dict[Kind, _Left] = dict(known.left) if known else {}
    for kind, of_kind in things.items():
        counts = dict(found.get(kind, {}))
        for thing in of_kind:
            counts[thing.name] = sum(standing.get((thing, place), 0) for place in OUT_OF_THE_HOUSE)
        found[kind] = {name: count for name, count in counts.items() if count}
    return {kind: of_kind for kind, of_kind in found.items() if of_kind}


def _uses(known: ThingIndex, tables: Tables, gone: _Changed, more: _Changed) -> dict[Thing, Sequence[Use]]:
    before, now = known.seen.uses.by_frame, tables.uses.by_frame
    went = _used_by_thing((before[frame], each) for frame, each in gone.items())
    came = _used_by_thing((now[frame], each) for frame, each in more.items())
    found = dict(known.uses)
    for thing in went.keys() | came.keys():
        out, into = went.get(thing, {}), came.get(thing, {})
        leaving = [use for name, use in out.items() if into.get(name) != use]
        coming = [use for name, use in into.items() if out.get(name) != use]
        if leaving or coming:
            found[thing] = in_order_again(found.get(thing, ()), leaving, coming, _in_true_time)
        if not found[thing]:
            del found[thing]
    return found


def _every_use(tables: Tables, frames: Mapping[str, OfFrame]) -> dict[Thing, Sequence[Use]]:
    found: dict[Thing, list[Use]] = defaultdict(list)
    number: dict[str, int] = defaultdict(int)
    for use in tables.uses.all:
        at = number[use.frame]
        number[use.frame] += 1
        for thing, bits in frames[use.frame].used.items():
            if bits >> at & 1 and thing.name:
                found[thing].append(use)
    return dict(found)


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
