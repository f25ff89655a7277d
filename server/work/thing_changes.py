"""Which frames use other things, or are in another place, than at an earlier state of the shop."""

from collections.abc import Callable, Hashable, Iterator, Mapping, Sequence
from itertools import takewhile
from typing import NamedTuple, TypeVar

from server.facts.equipment import Window
from server.facts.frame_papers import shipments_of
from server.facts.in_parts import same_ends
from server.facts.layered import differing
from server.facts.looked_up import only_new
from server.facts.registers import Registers
from server.occasions.days import Days
from server.occasions.gas import GasTable
from server.occasions.tables import Tables
from server.occasions.timed import Timed
from server.occasions.uses import FAR_MS, Use, Uses

Paper = TypeVar("Paper")
Name = TypeVar("Name", bound=Hashable)
_A_DAY_MS = 86_400_000


class Seen(NamedTuple):
    """What the things a pass used, and the place of its joint, rest on."""

    registers: Registers
    uses: Uses
    gas: GasTable
    days: Days
    back: Mapping[str, int]
    """The frames that came back and have not left again, with when [ms]."""

    @classmethod
    def of(cls, tables: Tables) -> "Seen":
        """Take it from the tables, without the tables themselves, which nobody is to hold on to."""
        rests_on = tables.returned, tables.registers.shipments
        back = tables.made_of.kept("back in the house", rests_on, lambda _: _back(tables))
        return cls(tables.registers, tables.uses, tables.gas, tables.days, back)


def _back(tables: Tables) -> Mapping[str, int]:
    sent = {frame: [each.at for each in shipments_of(tables.registers, frame)] for frame in tables.returned}
    return {frame: at_ms for frame, at_ms in tables.returned.items() if max(sent[frame], default=-1) < at_ms}


def changed_frames(before: Seen, now: Seen) -> set[str]:
    """Give every frame of which something that counts is told otherwise; perhaps some more."""
    found = set(differing(before.uses.by_frame, now.uses.by_frame)) | set(differing(before.back, now.back))
    for of_part in PARTS:
        found |= of_part(before, now)
    return found


def _of_papers(before: Seen, now: Seen) -> set[str]:
    old, new = before.registers, now.registers
    found = {each.frame for each in _otherwise(old.shipments, new.shipments)}
    found |= {each.frame for each in _otherwise(old.permissions, new.permissions)}
    found |= {each.frame for each in _otherwise(old.pieces, new.pieces)}
    found |= {each.frame for each in _otherwise(old.packets, new.packets)}
    if designs := {each.name for each in _otherwise(old.designs, new.designs)}:
        found |= {each.frame for each in new.packets.values() if each.design in designs}
    return found


def _of_gas(before: Seen, now: Seen) -> set[str]:
    uses = [*_on_other_gas(before, now), *_resting_otherwise(before, now)]
    lots = {each.id for each in _otherwise(before.registers.fill_lots, now.registers.fill_lots)}
    uses += [use for each in (before, now) for lot in lots for use in _of_lot(each, lot)]
    return {use.frame for use in uses}


def _of_registers(before: Seen, now: Seen) -> set[str]:
    old, new, uses = before.registers, now.registers, now.uses
    found = [use for each in _otherwise(old.sleeves, new.sleeves) for use in uses.by_sleeve.get(each.id, ())]
    for bench in _otherwise(old.benches, new.benches):
        found += [use for line in (bench.torch_line, bench.purge_line) for use in uses.by_line.get(line, ())]
    for window in _otherwise(old.windows, new.windows):
        benches = [each.benches[str(window.bench)] for each in (old, new) if window.bench in each.benches]
        lines = {line for bench in benches for line in (bench.torch_line, bench.purge_line)}
        since_ms = _otherwise_since(old.windows.get(window.id), new.windows.get(window.id))
        found += [use for line in lines for use in uses.on_line(line, since_ms - 1, FAR_MS)]
    return {use.frame for use in found}


def _otherwise_since(old: Window | None, new: Window | None) -> int:
    """From when on what stood in a window may be told otherwise; where only its end is, from that end on."""
    told = [each for each in (old, new) if each]
    ends = [each.until for each in told if each.until is not None]
    same = old and new and old.model_copy(update={"until": None}) == new.model_copy(update={"until": None})
    return min(ends) if same and ends else min(each.since for each in told)


def _of_procedures(before: Seen, now: Seen) -> set[str]:
    revisions = _otherwise(before.registers.procedures, now.registers.procedures)
    if not revisions:
        return set()
    first = min(each.valid_from.toordinal() for each in revisions)
    return {use.frame for use in now.uses.between(now.days.start_ms(first) - _A_DAY_MS, FAR_MS)}


PARTS = [_of_papers, _of_gas, _of_registers, _of_procedures]


def _otherwise(before: Mapping[Name, Paper], now: Mapping[Name, Paper]) -> list[Paper]:
    """The papers told since, and of those told anew both as they were and as they are."""
    if before is now:
        return []
    new = only_new(before, now)
    if new is not None:
        return new
    return [papers[name] for name in differing(before, now) for papers in (before, now) if name in papers]


def _of_lot(seen: Seen, lot: str) -> Iterator[Use]:
    """The passes that may have been under gas of a fill lot."""
    found = seen.registers.fill_lots.get(lot)
    changes = [change for each in (found.cylinders if found else ()) for change in seen.gas.naming("cylinder", each)]
    for change in [*changes, *seen.gas.naming("fill lot", lot)]:
        following = seen.gas.change_after(change)
        until_ms = following.at.at_ms if following else FAR_MS
        yield from seen.uses.on_line(change.entry.line, change.at.at_ms - 1, until_ms)


def _on_other_gas(before: Seen, now: Seen) -> Iterator[Use]:
    """What was welded from the first change on at which a line's story is another."""
    for line in differing(before.gas.changes, now.gas.changes):
        told = [each.gas.changes.get(line, []) for each in (before, now)]
        first = _alike(told[0], told[1], _as_gas)
        if starts := [of_one[first].at.at_ms for of_one in told if first < len(of_one)]:
            yield from now.uses.on_line(line, min(starts) - 1, FAR_MS)


def _resting_otherwise(before: Seen, now: Seen) -> Iterator[Use]:
    """What was welded from the first pass on at which a line's passes are others, until its gas is read again."""
    for line in differing(before.uses.by_line, now.uses.by_line):
        told = [each.uses.by_line.get(line, []) for each in (before, now)]
        first = _alike(told[0], told[1], _as_it_is)
        otherwise = set(told[0][first:]) ^ set(told[1][first:])
        last_ms = max((use.at.at_ms for use in otherwise), default=0)
        for use in told[1][first:]:
            yield use
            if use.at.at_ms > last_ms and use.purge_line == line and use.oxygen_by:
                break


def _alike(one: Sequence[Paper], other: Sequence[Paper], said: Callable[[Paper], object]) -> int:
    """How many say the same at the beginning of both."""
    head, _ = same_ends(one, other)
    pairs = zip(one[head:], other[head:], strict=False)
    return head + sum(1 for _ in takewhile(lambda pair: said(pair[0]) == said(pair[1]), pairs))


def _as_gas(change: Timed) -> tuple[int, str | None, str | None]:
    return change.at.at_ms, change.entry.on, change.entry.fill_lot


def _as_it_is(use: Use) -> Use:
    return use
