"""A seam round a tube in four quarters: how hot the metal is where each quarter starts, by order and pause."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from itertools import permutations
from typing import NamedTuple

from server.physics.band import Band
from server.physics.cooling_field import LaidBead, rise_k
from server.physics.cooling_metal import TITANIUM_TUBE, TubeMetal, over_metals
from server.physics.cooling_weld import TubeWeld
from server.physics.errors import UnusableInput
from server.physics.inputs import between

_INSIDE_MM = 10.0
_LONGEST_PAUSE_S = 3600.0


class QuarterPlan(NamedTuple):
    """An order of quarters 0 … 3 with one pause between them [s], and the hottest metal that any of them meets [°C]."""

    order: tuple[int, ...]
    pause_s: float
    hottest_met_c: Band


def quarter_starts_c(weld: TubeWeld, order: Sequence[int], pause_s: float) -> tuple[Band, ...]:
    """Temperature of the metal 10 mm into each quarter at the moment its arc starts.

    Equation: T = T0 + Σ θ of the quarters before, θ as in cooling_field.rise_k
    Inputs: weld with around_mm [mm], whose bead_mm is not used; order, the quarters 0 … 3 as they are welded; pause_s
        between arc-off and the next arc-on [s].
    Result: a Band for each quarter, in the order welded [°C].
    Example:
        >>> seam = TubeWeld(100.0, 120.0, bead_mm=26.7, wall_mm=0.9, around_mm=106.8)
        >>> [start.mapped(round).expected for start in quarter_starts_c(seam, order=(0, 2, 1, 3), pause_s=30.0)]
        [20, 36, 117, 78]

    Range and traps: Advice, never a verdict; the interpass limit of the qualified procedure comes first. All quarters
        run the same way round. Even the hop 0-2-1-3 puts neighbours one after the other: wait, or weld another joint in
        between. With no pause 0-1-2-3 looks cool only because the heat has not arrived yet.
    Source: Green's function of an unrolled tube, held by a finite-difference solver in the tests.
    """
    pause_s = between("pause_s", pause_s, 0.0, _LONGEST_PAUSE_S)
    beads = _beads(weld, order, pause_s)
    return tuple(over_metals(partial(_met_c, weld, beads[:laid], bead, False)) for laid, bead in enumerate(beads))


def best_order(weld: TubeWeld, pause_s: float) -> QuarterPlan:
    """The order of quarters in which none meets hotter metal than it must, for a given pause.

    Equation: least over all orders of the greatest temperature met, 10 mm after a start and 10 mm before an end
    Inputs: weld with around_mm [mm]; pause_s [s].
    Result: a QuarterPlan [s, °C], quarter 0 first.
    Example:
        >>> seam = TubeWeld(100.0, 120.0, bead_mm=26.7, wall_mm=0.9, around_mm=106.8)
        >>> best_order(seam, pause_s=30.0).order
        (0, 2, 1, 3)

    Range and traps: As quarter_starts_c. Where the design hides a quarter, its cover decides the order, not the heat.
    Source: all six orders tried.
    """
    pause_s = between("pause_s", pause_s, 0.0, _LONGEST_PAUSE_S)
    order = min(((0, *rest) for rest in permutations((1, 2, 3))), key=lambda order: _hottest_c(weld, order, pause_s))
    return QuarterPlan(order, pause_s, _hottest_band(weld, order, pause_s))


def pause_for(weld: TubeWeld, order: Sequence[int], limit_c: float) -> QuarterPlan:
    """The shortest pause with which no quarter meets metal above a limit, by the high end of the band.

    Equation: the pause, to a second, from which on the high end of all that is met stays under the limit
    Inputs: weld with around_mm [mm]; order; limit_c, such as the interpass limit [°C].
    Result: a QuarterPlan [s, °C].
    Example:
        >>> seam = TubeWeld(100.0, 120.0, bead_mm=26.7, wall_mm=0.9, around_mm=106.8)
        >>> pause_for(seam, order=(0, 2, 1, 3), limit_c=150.0).pause_s
        38.0

    Range and traps: As quarter_starts_c; a thermometer on the metal always overrides it. An hour is the longest pause
        given.
    Source: as quarter_starts_c.
    """
    weld.limit_rise_k(limit_c)
    cool_s, hot_s = _LONGEST_PAUSE_S, -1.0
    # Not from 0 up: a short pause can be cooler than a longer one, as the heat of the quarter before arrives late.
    while cool_s - hot_s > 1.0:
        tried_s = (cool_s + max(hot_s, 0.0)) // 2.0
        if _hottest_band(weld, order, tried_s).high <= limit_c:
            cool_s = tried_s
        else:
            hot_s = tried_s
    return QuarterPlan(tuple(order), cool_s, _hottest_band(weld, order, cool_s))


def _hottest_band(weld: TubeWeld, order: Sequence[int], pause_s: float) -> Band:
    beads = _beads(weld, order, pause_s)
    met = (over_metals(partial(_met_c, weld, beads[:laid], bead, True)) for laid, bead in enumerate(beads))
    return max(met, key=lambda band: band.high)


def _hottest_c(weld: TubeWeld, order: Sequence[int], pause_s: float) -> float:
    beads = _beads(weld, order, pause_s)
    return max(_met_c(weld, beads[:laid], bead, True, TITANIUM_TUBE) for laid, bead in enumerate(beads))


def _beads(weld: TubeWeld, order: Sequence[int], pause_s: float) -> list[LaidBead]:
    if weld.around_mm is None:
        raise UnusableInput("around_mm", None, "the way round the tube", "Give its circumference in millimetres.")
    if sorted(order) != [0, 1, 2, 3]:
        raise UnusableInput("order", tuple(order), "each of 0, 1, 2 and 3 once", "Number the quarters round the tube.")
    quarter_mm, travel_mm_per_s = weld.around_mm / 4.0, weld.travel_mm_per_min / 60.0
    one_s = quarter_mm / travel_mm_per_s + pause_s
    return [
        LaidBead(at * quarter_mm, (at + 1) * quarter_mm, turn * one_s, travel_mm_per_s, weld.heat_input_j_per_mm)
        for turn, at in enumerate(order)
    ]


def _met_c(weld: TubeWeld, before: Sequence[LaidBead], bead: LaidBead, to_end: bool, metal: TubeMetal) -> float:
    """What a quarter meets of the heat of those before it: 10 mm after its start, and 10 mm before its end."""
    import numpy as np

    moments = [(bead.begin_s, bead.start_mm + _INSIDE_MM)]
    if to_end:
        moments.append((bead.end_s - _INSIDE_MM / bead.travel_mm_per_s, bead.end_mm - _INSIDE_MM))
    rises = (rise_k(before, np.array([at]), now_s, weld.wall_mm, weld.around_mm, metal)[0] for now_s, at in moments)
    return weld.start_c + float(max(rises))
