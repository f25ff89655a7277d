"""What a purge set-up will do: oxygen of each member against time, the slowest of them, and what none can go under."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from server.physics.inputs import between
from server.physics.purge_cells import part_into_cells
from server.physics.purge_course import PurgeCourse
from server.physics.purge_flow import settle_flow
from server.physics.purge_network import PurgeNetwork
from server.physics.purge_reach import check_reach
from server.physics.purge_single import AIR_OXYGEN_PPM

if TYPE_CHECKING:
    from server.physics.arrays import Floats

LONGEST_WAIT_S = 86_400.0


@dataclass(frozen=True, slots=True)
class PurgeForecast:
    """Oxygen [ppm] at times [s] by member, each at its worst place; `clear_s` is None for one not clear in a day."""

    after_s: Floats
    oxygen_ppm: dict[str, Floats]
    floor_ppm: dict[str, float]
    clear_s: dict[str, float | None]
    slowest: str
    dead_ends: tuple[str, ...]
    inlet_pressure_pa: float


def forecast_purge(
    network: PurgeNetwork, target_ppm: float, until_s: float = 600.0, points: int = 601, dead_end_cells: int = 8
) -> PurgeForecast:
    """Oxygen in every member of a purge set-up that starts full of air.

    Equation: Vi Ci' = Σ fji Cj − Σ fij Ci + Σ gij (Cj − Ci) + Fi Cs + li Cair;  C(t) = C∞ + exp(M t) (C0 − C∞)
    Inputs: network; target_ppm, the oxygen wanted everywhere [ppm]; until_s [s] and points of the curve;
        dead_end_cells, the cells a member without a flow is parted into, at least 5.
    Result: a PurgeForecast [s, ppm, Pa].
    Example:
        >>> from server.physics.purge_network import GasInlet, PurgeHole, PurgeMember
        >>> tubes = (PurgeMember("seat tube", 0.4, 480.0), PurgeMember("stay", 0.12, 400.0))
        >>> holes = (PurgeHole("seat tube", None, 5.0), PurgeHole("seat tube", "stay", 6.0))
        >>> purge = PurgeNetwork(tubes, holes, (GasInlet("seat tube", 10.0, oxygen_ppm=2.0),))
        >>> found = forecast_purge(purge, target_ppm=20.0)
        >>> found.slowest, found.dead_ends, found.clear_s["stay"] > 3600.0
        ('stay', ('stay',), True)

    Range and traps: A planning figure: a reading always overrides it. A member is taken as mixed, which is the slow
        side by two to five times where gas flows through; a dead end is followed cell by cell. Buoyancy, jets, moisture
        and gas given off by dirt are left out: argon in low, vent high still holds. A forgotten hole shows as a member
        that takes hours.
    Source: balance of oxygen; flow as in settle_flow; diffusion from a CRC table.
    """
    between("target_ppm", target_ppm, 0.0, AIR_OXYGEN_PPM)
    between("dead_end_cells", dead_end_cells, 5, 200, "Fewer than five misread a dead end by a factor of two.")
    between("points", points, 2, 100_000)
    between("until_s", until_s, 1e-3, 1e7)
    check_reach(network)
    flow = settle_flow(network)
    cells = part_into_cells(network, flow, dead_end_cells)
    course = PurgeCourse.of(cells)
    groups = list(cells.cells.values())
    clear_s = dict(zip(cells.cells, course.clear_s(groups, target_ppm, LONGEST_WAIT_S), strict=True))
    curve_ppm, after_s = course.curve_ppm(until_s, points), _evenly(until_s, points)
    oxygen_ppm = {name: curve_ppm[own.start : own.stop].max(axis=0) for name, own in cells.cells.items()}
    floor_ppm = {name: float(course.floor_ppm[own.start : own.stop].max()) for name, own in cells.cells.items()}
    slowest = max(clear_s, key=lambda name: (_wait(clear_s[name]), floor_ppm[name], oxygen_ppm[name][-1]))
    inlet_pa = max(flow.pressure_pa[inlet.member] for inlet in network.inlets)
    return PurgeForecast(after_s, oxygen_ppm, floor_ppm, clear_s, slowest, cells.dead_ends, inlet_pa)


def _wait(clear_s: float | None) -> float:
    return math.inf if clear_s is None else clear_s


def _evenly(until_s: float, points: int) -> Floats:
    import numpy as np

    return np.linspace(0.0, until_s, points)
