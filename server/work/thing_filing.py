"""Frames filed by the things their passes used and by where they are; told again of some frames, it shares the rest."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import NamedTuple

from server.facts.in_parts import in_parts
from server.facts.layered import layered
from server.occasions.filed import in_order_again
from server.occasions.uses import Use
from server.work.frame_places import PLACES, Place
from server.work.frame_things import FrameRow, Key, OfFrame, of_bits
from server.work.what_things import Kind, Thing

Frames = Mapping[str, OfFrame]
Passes = Mapping[str, Sequence[Use]]
"""The passes of each frame, in true time."""


class AtPlace(NamedTuple):
    """What used a thing and is at one place: the frames in the order of their last passes; how many joints in one
    attempt, and how many whatever the attempt."""

    rows: Sequence[FrameRow]
    joints: int
    standing: int


NOTHING_THERE = AtPlace((), 0, 0)


class Filing(NamedTuple):
    """Some frames by thing."""

    passes: Passes
    frames: Frames
    places: Mapping[Key, AtPlace]
    uses: Mapping[Thing, Sequence[Use]]
    """In true time."""

    def at(self, thing: Thing, place: Place) -> AtPlace:
        """Give what used a thing and is at a place."""
        return self.places.get((thing, place), NOTHING_THERE)

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


NOTHING_FILED = Filing({}, {}, {}, {})


def filed(passes: Passes, every: Iterable[Use], frames: Frames) -> Filing:
    """File all frames; `every` are their passes in true time."""
    return filed_of(passes, frames, _every_use(every, frames))


def filed_of(passes: Passes, frames: Frames, uses: Mapping[Thing, Sequence[Use]]) -> Filing:
    """File some frames with the passes of each thing, which stand in true time already."""
    return Filing(passes, frames, _places(NOTHING_FILED, {}, frames), uses)


def filed_again(
    known: Filing, passes: Passes, changed: Iterable[str], read: Callable[[str], OfFrame | None]
) -> tuple[Filing, Iterable[Key]]:
    """Read the frames that changed anew and put what they used in the place of what they did; with what stands
    otherwise by it."""
    names = list(changed)
    gone = {frame: known.frames[frame] for frame in names if frame in known.frames}
    more = {frame: told for frame in names if (told := read(frame)) is not None}
    places = _places(known, gone, more)
    uses = _uses(known, passes, gone, more)
    found = Filing(
        passes,
        layered(known.frames, more, empty=gone.keys() - more.keys()),
        layered(known.places, places, empty=[key for key, at in places.items() if not at.rows]),
        layered(known.uses, uses, empty=[thing for thing, of_one in uses.items() if not of_one]),
    )
    return found, places.keys()


def _places(known: Filing, gone: Frames, more: Frames) -> dict[Key, AtPlace]:
    """What stands otherwise at its place than before."""
    out, into = ([row for each in changed.values() for row in each.rows] for changed in (gone, more))
    if same := set(out) & set(into) if out else set():
        out, into = ([row for row in rows if row not in same] for rows in (out, into))
    went, came = _by_key(out), _by_key(into)
    return {
        key: _again(known.at(*key), went.get(key, ()), came.get(key, ())) for key in went.keys() | came.keys()
    }


def _again(at: AtPlace, went: Sequence[FrameRow], came: Sequence[FrameRow]) -> AtPlace:
    joints = at.joints + sum(row.joints for row in came) - sum(row.joints for row in went)
    standing = at.standing + sum(row.standing for row in came) - sum(row.standing for row in went)
    return AtPlace(in_order_again(at.rows, went, came, by_last_pass), joints, standing)


def _uses(known: Filing, passes: Passes, gone: Frames, more: Frames) -> dict[Thing, Sequence[Use]]:
    """The passes of each thing of which others used it than before."""
    went = _used_by_thing((known.passes[frame], each) for frame, each in gone.items())
    came = _used_by_thing((passes[frame], each) for frame, each in more.items())
    found: dict[Thing, Sequence[Use]] = {}
    for thing in went.keys() | came.keys():
        out, into = went.get(thing, {}), came.get(thing, {})
        leaving = [use for name, use in out.items() if into.get(name) != use]
        coming = [use for name, use in into.items() if out.get(name) != use]
        if leaving or coming:
            found[thing] = in_order_again(known.uses.get(thing, ()), leaving, coming, _in_true_time)
    return found


def _every_use(every: Iterable[Use], frames: Frames) -> dict[Thing, Sequence[Use]]:
    found: dict[Thing, list[Use]] = defaultdict(list)
    number: dict[str, int] = defaultdict(int)
    for use in every:
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


def by_last_pass(row: FrameRow) -> tuple[int, str]:
    """Where a row stands among those of its place."""
    return row.last_ms, row.frame


def _in_true_time(use: Use) -> tuple[int, str, int, int]:
    return use.at.at_ms, use.at.device, use.at.seq, use.position
