"""Beads of a trace: stretches with the arc on, joined over short breaks, without those too short to count."""

from __future__ import annotations

from collections.abc import Sequence
from functools import reduce
from typing import TYPE_CHECKING

from server.physics.trace_found import ArcSpan, TraceFault
from server.physics.trace_state import ArcOn
from server.physics.trace_stretch import Stretch

if TYPE_CHECKING:
    from server.physics.arrays import Numbers


def join_beads(stretches: Sequence[Stretch], time_s: Numbers, levels: ArcOn) -> list[Stretch]:
    """Join stretches that follow one another within a short break, and leave out arcs too short to count."""
    joined: list[Stretch] = []
    for stretch in stretches:
        if joined and _continues(joined[-1], stretch, time_s, levels):
            joined[-1] = _sum(joined[-1], stretch)
        else:
            joined.append(stretch)
    return [bead for bead in joined if bead.arc_s + bead.missing_s >= levels.shortest_arc_s]


def span_of(beads: Sequence[Stretch], time_s: Numbers) -> ArcSpan:
    """The sum of beads as one span from the first to the last; with no bead at all a span that says so."""
    if not beads:
        start_s = float(time_s[0])
        return ArcSpan(start_s, start_s, 0.0, 0.0, 0.0, 0.0, 0.0, 0.0, TraceFault.NO_ARC)
    whole = reduce(_sum, beads)
    per_second = 1.0 / whole.arc_s if whole.arc_s else 0.0
    means = (whole.charge_as * per_second, whole.flux_vs * per_second)
    ends_s = (float(time_s[whole.first]), float(time_s[whole.last]))
    return ArcSpan(*ends_s, whole.energy_j, whole.arc_s, whole.missing_s, *means, whole.peak_w, TraceFault(whole.fault))


def _continues(before: Stretch, after: Stretch, time_s: Numbers, levels: ArcOn) -> bool:
    if after.cut:
        return False
    return after.first == before.last + 1 or time_s[after.first] - time_s[before.last] <= levels.shortest_break_s


def _sum(one: Stretch, other: Stretch) -> Stretch:
    return Stretch(
        one.first,
        other.last,
        one.cut,
        one.fault | other.fault,
        one.missing_s + other.missing_s,
        one.energy_j + other.energy_j,
        one.arc_s + other.arc_s,
        one.charge_as + other.charge_as,
        one.flux_vs + other.flux_vs,
        max(one.peak_w, other.peak_w),
    )
