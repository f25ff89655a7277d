"""What the passes of one frame used, thing by thing, and how many of its joints are at which place."""

from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping, Sequence
from functools import cache
from typing import NamedTuple

from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.work.frame_places import Place, place_of
from server.work.what_things import COUNTED, KINDS, Kind, Reader, Thing, reader

Key = tuple[Thing, Place]
_SAME_BY: Mapping[Kind, Callable[[Use], Hashable]] = {
    "sleeve": lambda use: use.sleeve,
    "filler lot": lambda use: use.sleeve,
    "welder": lambda use: use.welder,
    "bench": lambda use: use.lines,
    "line": lambda use: use.lines,
    "week": lambda use: use.day,
    "tube heat": lambda use: use.joint,
    "revision": lambda use: (use.joint, use.day),
}
"""What the things of a kind follow from within one frame; those of the other kinds differ from moment to moment."""


class FrameRow(NamedTuple):
    """What used a thing of one frame and is at one place: its passes, as bits over those of the frame; how many joints
    in one attempt, how many whatever the attempt; the ends of the first and the last pass [ms]."""

    key: Key
    frame: str
    passes: int
    joints: int
    standing: int
    first_ms: int
    last_ms: int


class OfFrame(NamedTuple):
    """One frame: its joints as bits over its passes, each with its place; what used each thing as well; its rows."""

    joints: tuple[tuple[int, str, Place], ...]
    used: Mapping[Thing, int]
    rows: tuple[FrameRow, ...]


Readers = Sequence[tuple[Kind, Reader, Callable[[Use], Hashable] | None]]


def readers(tables: Tables) -> Readers:
    """Give how passes are asked for the things of each kind."""
    return [(kind, reader(tables, kind), _SAME_BY.get(kind)) for kind in KINDS]


def of_frame(tables: Tables, read: Readers, uses: Sequence[Use], *, home: bool) -> OfFrame:
    """Read one frame's passes; `home` says that it came back and has not left again."""
    joints: dict[tuple[str, int], int] = {}
    first: dict[tuple[str, int], Use] = {}
    for at, use in enumerate(uses):
        named = use.joint, use.attempt
        joints[named] = joints.get(named, 0) | 1 << at
        first.setdefault(named, use)
    placed = tuple((bits, it[0], place_of(tables, first[it], home=home)) for it, bits in joints.items())
    used = _used(read, uses)
    return OfFrame(placed, used, tuple(_rows(uses, placed, used)))


def _used(read: Readers, uses: Sequence[Use]) -> dict[Thing, int]:
    """The passes by thing; those that used anything of a kind by a thing of that kind without a name."""
    used: dict[Thing, int] = {}
    for kind, told_by, same_by in read:
        either = 0
        for use, bits in _alike(uses, same_by):
            for name in told_by(use):
                thing = _thing(kind, name)
                used[thing] = used.get(thing, 0) | bits
                either |= bits
        if either and kind in COUNTED:
            used[_thing(kind, "")] = either
    return used


def _alike(uses: Sequence[Use], same_by: Callable[[Use], Hashable] | None) -> Iterable[tuple[Use, int]]:
    """One of the passes that are alike, with the bits of them all."""
    if same_by is None:
        return ((use, 1 << at) for at, use in enumerate(uses))
    found: dict[Hashable, tuple[Use, int]] = {}
    for at, use in enumerate(uses):
        of_kind = same_by(use)
        first, bits = found.get(of_kind, (use, 0))
        found[of_kind] = first, bits | 1 << at
    return found.values()


def _rows(
    uses: Sequence[Use], joints: Sequence[tuple[int, str, Place]], used: Mapping[Thing, int]
) -> Iterator[FrameRow]:
    at_place: dict[Place, int] = {}
    for bits, _, place in joints:
        at_place[place] = at_place.get(place, 0) | bits
    for place, here in at_place.items():
        of_place = [(bits, joint) for bits, joint, where in joints if where == place]
        counted: dict[int, FrameRow] = {}
        for thing, bits in used.items():
            if passes := bits & here:
                # Many things were used by the very same passes.
                if (known := counted.get(passes)) is None:
                    known = counted[passes] = row_of((thing, place), uses, passes, of_place)
                yield FrameRow((thing, place), *known[1:])


def row_of(key: Key, uses: Sequence[Use], passes: int, joints: Iterable[tuple[int, str]]) -> FrameRow:
    """Make the row of some passes of a frame that are at one place; `joints` are those of the frame there."""
    of_these = [joint for bits, joint in joints if bits & passes]
    first, last = (passes & -passes).bit_length() - 1, passes.bit_length() - 1
    ends = uses[first].at.at_ms, uses[last].at.at_ms
    return FrameRow(key, uses[0].frame, passes, len(of_these), len(set(of_these)), *ends)


def only(row: FrameRow, passes: int, of_frame: OfFrame, uses: Sequence[Use]) -> FrameRow:
    """Give a row with only some of its passes."""
    if passes == row.passes:
        return row
    return row_of(row.key, uses, passes, [(bits, joint) for bits, joint, _ in of_frame.joints])


def of_bits(uses: Sequence[Use], bits: int) -> Iterator[Use]:
    """Give those of a frame's passes whose bits are set, in true time."""
    while bits:
        lowest = bits & -bits
        yield uses[lowest.bit_length() - 1]
        bits ^= lowest


@cache
def _thing(kind: Kind, name: str) -> Thing:
    return Thing(kind, name)
