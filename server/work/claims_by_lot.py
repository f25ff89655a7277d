"""Counts claimed joints by the lot, sleeve, heat or welder they used, against all others in the field, with q."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from typing import NamedTuple

from server.facts.claim import Claim
from server.occasions.tables import Tables
from server.occasions.uses import Use
from server.statistics.screen import Screened, screen
from server.work.what_things import FAR_MS, Kind, reader, uses_of_lot

COUNTED: tuple[Kind, ...] = ("fill lot", "cylinder", "filler lot", "sleeve", "tube heat", "welder", "bench", "revision")
_ALL_ANEW: Mapping[Kind, tuple[str, ...]] = {
    "bench": ("benches",),
    "tube heat": ("designs",),
    "revision": ("procedures", "designs"),
}
"""What is told seldom, and after which a kind is counted anew from all frames."""
_OF_GAS: tuple[Kind, ...] = ("fill lot", "cylinder")
_Used = frozenset[tuple[str, str]]
"""The things the joints of one frame used, each with the joint."""


class ByLot(NamedTuple):
    """The claims counted by one kind: a row to each thing of it, worst q first, and the claims left out with why."""

    kind: Kind
    rows: tuple[Screened, ...]
    claims: int
    joints: int
    left_out: tuple[tuple[str, str], ...]


class _Tally(NamedTuple):
    """What each shipped frame used, and how many joints that makes for each thing."""

    tables: Tables
    used: Mapping[str, _Used]
    joints: Counter[str]


def claims_by_lot(tables: Tables, kind: Kind) -> ByLot:
    """Tally every joint that left the house by the things of one kind; a claim counts for the joint it names."""
    name = f"claims by {kind}"
    known = tables.made_of.get(name)
    tally = tables.made_of[name] = _carried_on(known, tables, kind)
    claimed, left_out = _claimed(tables)
    with_it: Counter[str] = Counter()
    counted = set()
    for frame, joint in claimed:
        for thing, of_joint in tally.used.get(frame, ()):
            if of_joint == joint:
                with_it[thing] += 1
                counted.add((frame, joint))
    tallies = {thing: (with_it[thing], joints) for thing, joints in sorted(tally.joints.items())}
    rows = screen(tallies) if len(tallies) > 1 else ()
    missing = sorted(f"{frame}/{joint}" for frame, joint in claimed - counted)
    left_out += [(each, "no pass of it stands in the record with this") for each in missing]
    joints = sum(len({joint for _, joint in used}) for used in tally.used.values())
    return ByLot(kind, rows, len(counted), joints, tuple(left_out))


def _carried_on(known: _Tally | None, tables: Tables, kind: Kind) -> _Tally:
    """Count anew what changed since: all, where the registers that tell of this kind are others."""
    if known is not None and known.tables is tables:
        return known
    named = _ALL_ANEW.get(kind, ())
    if known is None or any(getattr(known.tables.registers, e) is not getattr(tables.registers, e) for e in named):
        known = _Tally(tables, {}, Counter())
        changed: Iterable[str] = tables.shipped
    else:
        changed = _changed(known.tables, tables, kind)
    used, joints = dict(known.used), Counter(known.joints)
    for frame in changed:
        joints.subtract(thing for thing, _ in used.pop(frame, ()))
        if frame in tables.shipped and (now := _used(tables, frame, kind)):
            used[frame] = now
            joints.update(thing for thing, _ in now)
    return _Tally(tables, used, +joints)


def _used(tables: Tables, frame: str, kind: Kind) -> _Used:
    read = reader(tables, kind)
    standing = (use for use in tables.uses.by_frame.get(frame, ()) if not tables.uses.made_again(use))
    return frozenset((thing, use.joint) for use in standing for thing in read(use))


def _changed(before: Tables, now: Tables, kind: Kind) -> set[str]:
    """The frames sent since, those of which another pass is known, and those that use what is told otherwise."""
    found = set(before.shipped ^ now.shipped) | _differing(before.uses.by_frame, now.uses.by_frame)
    old, new = before.registers, now.registers
    if kind in _OF_GAS:
        found |= {use.frame for use in _on_other_gas(before, now)}
    if kind == "fill lot":
        lots = _differing(old.fill_lots, new.fill_lots)
        found |= {use.frame for each in (before, now) for lot in lots for use in uses_of_lot(each, lot)}
    if kind == "filler lot":
        sleeves = _differing(old.sleeves, new.sleeves)
        found |= {use.frame for sleeve in sleeves for use in now.uses.by_sleeve.get(sleeve, ())}
    if kind in ("tube heat", "revision"):
        found |= _differing(old.packets, new.packets)
    if kind == "tube heat" and old.pieces is not new.pieces:
        found |= {frame for frame in now.shipped if before.pieces_of.get(frame) != now.pieces_of.get(frame)}
    return found


def _differing(before: Mapping[str, object], now: Mapping[str, object]) -> set[str]:
    """The names under which something else stands than before."""
    if before is now:
        return set()
    return {name for name in before.keys() | now.keys() if before.get(name) is not now.get(name)}


def _on_other_gas(before: Tables, now: Tables) -> Iterator[Use]:
    """What was welded from the first change on at which a line's story is another."""
    for line in _differing(before.gas.changes, now.gas.changes):
        told = [each.gas.changes.get(line, []) for each in (before, now)]
        stories = [[(each.at.at_ms, each.entry.on, each.entry.fill_lot) for each in of_one] for of_one in told]
        alike = next((at for at, both in enumerate(zip(*stories, strict=False)) if both[0] != both[1]), None)
        first = min(map(len, stories)) if alike is None else alike
        if starts := [story[first][0] for story in stories if first < len(story)]:
            yield from now.uses.on_line(line, min(starts) - 1, FAR_MS)


def _claimed(tables: Tables) -> tuple[set[tuple[str, str]], list[tuple[str, str]]]:
    found: set[tuple[str, str]] = set()
    left_out = []
    for claim in tables.registers.claims.values():
        if claim.joint:
            found.add((claim.serial, claim.joint))
        else:
            left_out.append((_named(claim), "it names no joint"))
    return found, left_out


def _named(claim: Claim) -> str:
    return f"{claim.id}, {claim.serial}"
