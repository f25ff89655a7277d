"""One quantity over time, pass by pass, split by what the passes shared: bench, line, cylinder, welder, run."""

from collections import defaultdict
from collections.abc import Callable, Mapping
from typing import NamedTuple

from server.facts.registers import Registers
from server.facts.supplies import CylinderChange
from server.facts.welding import Pass
from server.occasions.clocks import Clocks
from server.occasions.days import Days
from server.occasions.spans import Spans
from server.record.reads import Reads
from server.work.charted import CHARTED, Drawn
from server.work.standing_passes import standing_passes

SHARED = ("bench", "welder", "purge cylinder", "purge line", "run")


class Reading(NamedTuple):
    """One value of one pass at its true time [ms, UTC], where to read about it, its limit, and what it was made as."""

    at_ms: int
    frame: str
    joint: str
    entry: str
    value: float
    low: float | None = None
    high: float | None = None
    under: str = ""


def measured_over_time(reads: Reads, quantity: str, shared: str) -> dict[str, list[Reading]]:
    """Give the readings of one quantity in true order, by what their passes shared; corrections are read into them."""
    registers, clocks = reads.registers(), Clocks(reads.clock_pairs())
    days, drawn = Days(registers.zone), Drawn(registers)
    group_of = _grouping(reads, registers, shared, clocks)
    found: dict[str, list[Reading]] = defaultdict(list)
    for it, values in standing_passes(reads):
        at_ms = clocks.stamp(it).at_ms
        limit = drawn.limit(it, days.day_of(at_ms), CHARTED[quantity].limit)
        value = drawn.value(it, values, quantity, limit)
        if value is not None:
            ends = (limit.low, limit.high) if limit else (None, None)
            found[group_of(it, at_ms)].append(Reading(at_ms, it.frame, it.joint, it.id, value, *ends, drawn.under(it)))
    return {name: sorted(found[name]) for name in sorted(found)}


def _grouping(reads: Reads, registers: Registers, shared: str, clocks: Clocks) -> Callable[[Pass, int], str]:
    if shared == "welder":
        return lambda it, _: it.who
    if shared == "run":
        return lambda it, _: it.run
    if shared == "purge line":
        return lambda it, _: it.purge_line or "no line told"
    if shared == "bench":
        benches = {line: each.id for each in registers.benches.values() for line in (each.purge_line, each.torch_line)}
        return lambda it, _: benches.get(it.torch_line) or benches.get(it.purge_line or "") or "not known"
    cylinders = _cylinders(reads, clocks)

    def cylinder(it: Pass, at_ms: int) -> str:
        known = cylinders.get(it.purge_line or "")
        return (known.at(at_ms) if known else None) or "not known"

    return cylinder


def _cylinders(reads: Reads, clocks: Clocks) -> Mapping[str, Spans[str | None]]:
    changes: dict[str, list[tuple[int, str | None]]] = defaultdict(list)
    for recorded in reads.shared_entries():
        it = recorded.entry
        if isinstance(it, CylinderChange):
            changes[it.line].append((clocks.stamp(it).at_ms, it.on))
    return {line: Spans(told) for line, told in changes.items()}
