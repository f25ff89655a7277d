"""Which shared things may stand otherwise than at an earlier state of the shop: lines, cylinders, meters, welders."""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from typing import Any

from server.facts.deciding import Nonconformity
from server.facts.frame_papers import decisions_using
from server.facts.in_parts import same_ends
from server.facts.layered import Layered, differing
from server.facts.looked_up import gathered
from server.occasions.clocks import Clocks
from server.occasions.cylinders import REACH_MS
from server.occasions.suspects import failed_about
from server.occasions.tables import Tables
from server.occasions.uses import Use

_FAR = "instruments", "benches", "designs", "procedures", "compositions"
"""What is told seldom and reaches everything it could reach."""


def changed_things(before: Tables, now: Tables) -> set[str] | None:
    """Give the names of what may stand otherwise; none where it may be anything, as on another day.

    Time goes on with every line: what is still open, and what was told of later than the last line, may change with it.
    """
    if before.today != now.today or _other(before, now) or _moved(before, now):
        return None
    lines = set(differing(before.uses.by_line, now.uses.by_line))
    changed = set(differing(before.gas.changes, now.gas.changes))
    lots = _told(before, now, "fill_lots")
    filled = {cylinder for lot in (*lots.values(), *_were(before, "fill_lots", lots)) for cylinder in lot.cylinders}
    regassed = changed | {each.entry.line for cylinder in filled for each in now.gas.naming("cylinder", cylinder)}
    return {
        *lines,
        *changed,
        *differing(before.gas.beads, now.gas.beads),
        *differing(before.uses.by_instrument, now.uses.by_instrument),
        *differing(before.uses.by_welder, now.uses.by_welder),
        *differing(before.told_checks, now.told_checks),
        *differing(before.tested_welders, now.tested_welders),
        *differing(before.told_sleeves, now.told_sleeves),
        *_unlike(before.calibrations_of, now.calibrations_of),
        *_unlike(before.standings.held, now.standings.held),
        *now.clocks.heard_since(before.clocks),
        *(name for kind in ("sleeves", "filler_lots", "heats", "concessions") for name in _told(before, now, kind)),
        *filled,
        *(each.cylinder for each in _told(before, now, "analyses").values()),
        *_concessions(before, now),
        *_cylinders(before, now, lines, changed),
        *_readers(now, regassed),
        *_still_open(before, now),
        *_papers(before, now, lines | changed),
    }


def every_thing(tables: Tables) -> set[str]:
    """Give the names of all that frames share."""
    told, gas = tables.registers, tables.gas
    return {
        *tables.uses.by_line,
        *tables.uses.by_instrument,
        *tables.uses.by_welder,
        *gas.changes,
        *(each.entry.on for changes in gas.changes.values() for each in changes if each.entry.on is not None),
        *gas.beads,
        *tables.told_checks,
        *tables.tested_welders,
        *tables.told_sleeves,
        *tables.calibrations_of,
        *tables.standings.held,
        *tables.clocks.heard_since(Clocks()),
        *told.instruments,
        *told.filler_lots,
        *told.heats,
        *told.nonconformities,
        *tables.analysis_of,
        *decisions_using(told),
    }


def _concessions(before: Tables, now: Tables) -> Iterator[str]:
    told = _told(before, now, "decisions")
    yield from (each.concession for each in (*told.values(), *_were(before, "decisions", told)) if each.concession)


def _other(before: Tables, now: Tables) -> bool:
    same = all(getattr(before.registers, name) is getattr(now.registers, name) for name in _FAR)
    return not same or before.accepted is not now.accepted or before.registers.zone != now.registers.zone


def _moved(before: Tables, now: Tables) -> bool:
    """Tell whether a frame that was welded on is of another packet now."""
    return any(frame in now.uses.by_frame for frame in _told(before, now, "packets"))


def _cylinders(before: Tables, now: Tables, lines: Iterable[str], changed: Collection[str]) -> Iterator[str]:
    """The cylinders whose readings, before they came onto a line or after, may be others."""
    for line in {*lines, *changed}:
        span = _span(before.uses.by_line.get(line, []), now.uses.by_line.get(line, []))
        for tables in (before, now):
            for change, until_ms in tables.gas.stretches(line):
                near = span and change.at.at_ms <= span[1] + REACH_MS and (until_ms is None or until_ms >= span[0])
                if change.entry.on is not None and (line in changed or near):
                    yield change.entry.on


def _span(old: Sequence[Use], new: Sequence[Use]) -> tuple[int, int] | None:
    """When the first and the last of what differs ended."""
    if old is new:
        return None
    head, tail = same_ends(old, new)
    ends = [each.at.at_ms for uses in (old, new) for each in uses[head : len(uses) - tail]]
    return (min(ends), max(ends)) if ends else None


def _readers(now: Tables, lines: Iterable[str]) -> set[str]:
    """The meters that read the gas of some lines: what they read is held against the gas that was on."""
    return {use.oxygen_by for line in lines for use in now.uses.by_line.get(line, ()) if use.oxygen_by}


def _still_open(before: Tables, now: Tables) -> Iterator[str]:
    for sleeve in now.rods.opened:
        openings = now.rods.openings(sleeve)
        if openings and openings[-1].closed is None:
            yield sleeve
    for use in _late(now.uses.all, before.end_ms):
        yield from (*use.lines, use.welder, *filter(None, (use.oxygen_by, use.machine)))
    for told in (now.gas.beads, now.gas.changes):
        yield from (line for line, each in told.items() if each[-1].at.at_ms >= before.end_ms)


def _late(uses: Sequence[Use], end_ms: int) -> Iterator[Use]:
    for use in reversed(uses):
        if use.at.at_ms < end_ms:
            return
        yield use


def _papers(before: Tables, now: Tables, lines: Collection[str]) -> set[str]:
    """The nonconformities that hold what a check reaches, where it may reach something else."""
    named = set(_told(before, now, "nonconformities"))
    papers = gathered(now.registers, "papers by thing", now.registers.nonconformities, _things)
    same = before.registers.narrowings is now.registers.narrowings and before.cuts_rest_on(now)
    if not same or before.registers.calibrations is not now.registers.calibrations:
        return {*now.registers.nonconformities, *named}
    frames = differing(before.uses.by_frame, now.uses.by_frame)
    welded = [use for tables in (before, now) for frame in frames for use in tables.uses.by_frame.get(frame, ())]
    things = {*lines, *_readers(before, lines), *_readers(now, lines), *_tested(before, now)}
    things |= {failed.thing for tables in (before, now) for failed in failed_about(tables, welded)}
    things |= {each for use in welded for each in (use.welder, use.machine) if each}
    return named | {paper.id for thing in things for paper in papers.get(thing, ())}


def _tested(before: Tables, now: Tables) -> set[str]:
    beads = differing(before.gas.beads, now.gas.beads)
    coupons = differing(before.tested_welders, now.tested_welders)
    return {*beads, *coupons, *differing(before.told_checks, now.told_checks)}


def _things(paper: Nonconformity) -> set[str]:
    return {key.partition("|")[0].rpartition("@")[0] for key in paper.findings}


def _told(before: Tables, now: Tables, kind: str) -> Mapping[str, Any]:
    """What was told of one register since."""
    then, after = getattr(before.registers, kind), getattr(now.registers, kind)
    if then is after:
        return {}
    came = after.came_since(then) if isinstance(after, Layered) else None
    return came if came is not None else {name: each for name, each in after.items() if then.get(name) is not each}


def _were(before: Tables, kind: str, told: Iterable[str]) -> list[Any]:
    then = getattr(before.registers, kind)
    return [then[name] for name in told if name in then]


def _unlike(old: Mapping[str, object], new: Mapping[str, object]) -> set[str]:
    """The names under which something else stands."""
    if old is new:
        return set()
    return {name for name, each in new.items() if old.get(name) != each} | (old.keys() - new.keys())
