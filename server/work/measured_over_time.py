"""One quantity over time, pass by pass, split by what the passes shared: bench line, cylinder, welder, run."""

from collections import defaultdict
from collections.abc import Callable, Mapping
from typing import NamedTuple

from server.facts.supplies import CylinderChange
from server.facts.welding import Pass
from server.occasions.clocks import Clocks
from server.occasions.spans import Spans
from server.record.reads import Reads

SHARED = ("purge line", "purge cylinder", "welder", "run")
CHARTED = ("oxygen", "mean_current", "volts", "arc_on", "interpass", "post_flow", "purge_flow", "torch_flow")


class Reading(NamedTuple):
    """One value of one pass at its true time [ms, UTC], and where to read about it."""

    at_ms: int
    frame: str
    joint: str
    entry: str
    value: float


def measured_over_time(reads: Reads, quantity: str, shared: str) -> dict[str, list[Reading]]:
    """Give the readings of one quantity in true order, by what their passes shared; as first told."""
    clocks = Clocks(reads.clock_pairs())
    group_of = _grouping(reads, shared, clocks)
    found: dict[str, list[Reading]] = defaultdict(list)
    for recorded in reads.passes():
        it = recorded.entry
        if isinstance(it, Pass) and (measured := it.values.get(quantity)):
            at_ms = clocks.stamp(it).at_ms
            found[group_of(it, at_ms)].append(Reading(at_ms, it.frame, it.joint, it.id, measured.value))
    return {name: sorted(found[name]) for name in sorted(found)}


def _grouping(reads: Reads, shared: str, clocks: Clocks) -> Callable[[Pass, int], str]:
    if shared == "welder":
        return lambda it, _: it.who
    if shared == "run":
        return lambda it, _: it.run
    if shared == "purge line":
        return lambda it, _: it.purge_line or "no line told"
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
