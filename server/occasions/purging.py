"""How long and with how much gas each purge set-up was flushed before its first arc."""

from collections import defaultdict
from collections.abc import Callable, Mapping
from math import sqrt
from typing import NamedTuple

from server.facts.equipment import Acceptance
from server.facts.figure import Figure
from server.occasions.doubts import Doubts
from server.occasions.frame_log import FrameLog
from server.occasions.spans import Spans
from server.occasions.timed import Timed

_MS_PER_MIN = 60_000.0


class Flushed(NamedTuple):
    """What the first pass after a purge was turned on rests on; no minutes: nobody logged the purge."""

    minutes: Figure | None
    volumes: Figure | None


class _Start(NamedTuple):
    on: Timed
    since_ms: int
    error_ms: int


def first_after_purge(
    log: FrameLog,
    stops: Callable[[str], Spans[Timed]],
    volume_l: Mapping[str, float],
    doubts: Doubts,
    accept: Mapping[str, Acceptance],
) -> dict[str, Flushed]:
    """Give, by pass id, how each set-up was flushed, for the first pass of each purge of it only."""
    found: dict[str, Flushed] = {}
    for setup, arcs in _arcs_by_setup(log).items():
        purges = [each for each in log.of("purge") if each.entry.setup == setup]
        periods: dict[tuple[str, int] | None, list[Timed]] = defaultdict(list)
        starts: dict[tuple[str, int] | None, _Start] = {}
        for arc in arcs:
            start = _start_before(arc_start_ms(arc), purges, stops)
            key = (start.on.entry.id, start.since_ms) if start else None
            periods[key].append(arc)
            if start:
                starts[key] = start
        for key, in_period in periods.items():
            first = next((arc for arc in in_period if arc.entry.kind == "pass"), None)
            if first is not None:
                found[first.entry.id] = _flushed(starts.get(key), in_period[0], volume_l.get(setup), doubts, accept)
    return found


def arc_start_ms(arc: Timed) -> int:
    """Give the true time the arc was struck: as told, else from its seconds, else its end."""
    told = vars(arc.entry)
    started = told.get("arc_started")
    if started is not None:
        return int(started) + arc.shift_ms
    seconds = told["values"].get("arc_on")
    return arc.at.at_ms - (round(seconds.value * 1000) if seconds else 0)


def _arcs_by_setup(log: FrameLog) -> dict[str, list[Timed]]:
    arcs: dict[str, list[Timed]] = defaultdict(list)
    for arc in sorted((*log.of("pass"), *log.of("tack")), key=arc_start_ms):
        if arc.entry.setup is not None:
            arcs[arc.entry.setup].append(arc)
    return arcs


def _start_before(start_ms: int, purges: list[Timed], stops: Callable[[str], Spans[Timed]]) -> _Start | None:
    """The purge that was on when the arc was struck; a change that let the gas stop starts it anew."""
    on: Timed | None = None
    for each in purges:
        if each.at.at_ms > start_ms:
            break
        on = None if each.entry.act == "off" else each
    if on is None:
        return None
    stop = stops(on.entry.line).at(start_ms) if on.entry.line else None
    last = stop if stop is not None and stop.at.at_ms > on.at.at_ms else on
    return _Start(on, last.at.at_ms, last.at.error_ms)


def _flushed(
    start: _Start | None, arc: Timed, volume_l: float | None, doubts: Doubts, accept: Mapping[str, Acceptance]
) -> Flushed:
    if start is None:
        return Flushed(None, None)
    purge = start.on.entry
    minutes = (arc_start_ms(arc) - start.since_ms) / _MS_PER_MIN
    one_clock = start.on.at.boot is not None and start.on.at.boot == arc.at.boot and start.on.at.device == arc.at.device
    apart_ms = 0 if one_clock else start.error_ms + arc.at.error_ms
    doubt = apart_ms / _MS_PER_MIN / sqrt(3)
    told = Figure(minutes, doubt, "computed", None, purge.id)
    measured = purge.values.get("pre_purge_flow")
    if measured is None or not volume_l:
        return Flushed(told, None)
    flow = doubts.figure("pre_purge_flow", measured, purge.id, accept)
    volumes = flow.value * minutes / volume_l
    u = None if flow.u is None or flow.value == 0 else volumes * flow.u / flow.value
    return Flushed(told, Figure(volumes, u, "computed", flow.by, purge.id))
