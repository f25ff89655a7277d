"""Which frames used each thing, with how many joints and where they are; carried on by the frames that changed."""

from collections import defaultdict
from collections.abc import Iterable, Mapping
from typing import NamedTuple

from server.facts.layered import layered
from server.occasions.tables import Tables
from server.work.frame_places import Place
from server.work.frame_things import Key, OfFrame, of_frame, readers
from server.work.thing_changes import Seen, changed_frames
from server.work.thing_filing import Filing, filed, filed_again
from server.work.what_things import COUNTED, Kind, Thing

_NAME = "frames by thing"
OUT_OF_THE_HOUSE: tuple[Place, ...] = ("shipped", "back in the house")
_Left = Mapping[str, int]


class ThingIndex(NamedTuple):
    """Everything by thing, as known at one state of the shop."""

    seen: Seen
    filed: Filing
    left: Mapping[Kind, _Left]
    """By kind and thing, how many joints left the house with their frame; what stays the same is the same object."""


def thing_index(tables: Tables) -> ThingIndex:
    """Give the index of this state, carried on from the last one that was asked for."""
    return tables.made_of.kept(_NAME, (tables.uses,), lambda known: _carried_on(known, tables))


def _carried_on(known: ThingIndex | None, tables: Tables) -> ThingIndex:
    seen, passes, read_by = Seen.of(tables), tables.uses.by_frame, readers(tables)

    def read(frame: str) -> OfFrame | None:
        uses = passes.get(frame)
        return of_frame(tables, read_by, uses, home=frame in seen.back) if uses else None

    if known is None:
        every = filed(passes, tables.uses.all, {frame: told for frame in passes if (told := read(frame))})
        return ThingIndex(seen, every, _left({}, every, every.places))
    changed = changed_frames(known.seen, seen)
    if not changed:
        return known._replace(seen=seen)
    again, otherwise = filed_again(known.filed, passes, changed, read)
    return ThingIndex(seen, again, _left(known.left, again, otherwise))


def _left(known: Mapping[Kind, _Left], now: Filing, changed: Iterable[Key]) -> Mapping[Kind, _Left]:
    things: dict[Kind, set[Thing]] = defaultdict(set)
    for thing, place in changed:
        if place in OUT_OF_THE_HOUSE and thing.name and thing.kind in COUNTED:
            things[thing.kind].add(thing)
    found = dict(known)
    for kind, of_kind in things.items():
        counts = {thing.name: now.standing_at(thing, OUT_OF_THE_HOUSE) for thing in of_kind}
        none = [name for name, count in counts.items() if not count]
        found[kind] = layered(found.get(kind, {}), counts, empty=none)
    return {kind: of_kind for kind, of_kind in found.items() if of_kind}
