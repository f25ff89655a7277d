"""How the gas of a purge divides among the holes, and the pressure it needs in each member."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from server.physics.argon import argon_density_kg_per_m3
from server.physics.purge_hole import DISCHARGE
from server.physics.purge_network import PurgeNetwork

if TYPE_CHECKING:
    from server.physics.arrays import Floats

_STILL = 1e-9


@dataclass(frozen=True, slots=True)
class PurgeFlow:
    """Flow through each hole [m³/s], from its member outward, and pressure in each member above the air [Pa]."""

    hole_m3_per_s: tuple[float, ...]
    pressure_pa: dict[str, float]


def settle_flow(network: PurgeNetwork) -> PurgeFlow:
    """Divide the gas among the holes so that what enters each member leaves it again.

    Equation: pi − pj = ρ/2 · f |f| / (Cd · A)² at each hole, Σ f = 0 at each member; Newton steps on both at once.
    Inputs: network, checked by check_reach.
    Result: a PurgeFlow [m³/s, Pa].
    Example:
        >>> from server.physics.purge_network import GasInlet, PurgeHole, PurgeMember
        >>> tube = PurgeNetwork((PurgeMember("tube", 0.5, 500.0),), (PurgeHole("tube", None, 5.0),),
        ...                     (GasInlet("tube", 10.0),))
        >>> round(settle_flow(tube).pressure_pa["tube"])
        161

    Range and traps: Holes alone hold the gas back; friction along tubes is left out, as is the difference in weight
        between argon and air. Sharp-edged holes, one density everywhere. Holes more than
        thirty times apart in size blur the pressures by a part in a thousand.
    Source: Bernoulli at each hole; the joint Newton step is that of water-network analysis (Todini and Pilati, 1988).
    """
    import numpy as np

    resistance = np.array([_resistance(hole.diameter_mm) for hole in network.holes])
    joins = _joins(network)
    supply = _supply_m3_per_s(network)
    least = supply.sum() * 1e-6
    flow = np.full(len(network.holes), supply.sum())
    pressure = np.zeros(len(network.members))
    for _ in range(100):
        ease = 0.5 / (resistance * np.maximum(np.abs(flow), least))
        pressure = np.linalg.solve(joins.T @ (ease[:, None] * joins), supply - joins.T @ (0.5 * flow))
        before, flow = flow, 0.5 * flow + ease * (joins @ pressure)
        if np.abs(flow - before).max() < 1e-6 * supply.sum():
            break
    # Holes of very different size blur the balance by parts in ten thousand; it must hold exactly for the oxygen.
    flow += joins @ np.linalg.solve(joins.T @ joins, supply - joins.T @ flow)
    flow[np.abs(flow) < _STILL * supply.sum()] = 0.0
    names = (member.name for member in network.members)
    return PurgeFlow(tuple(flow.tolist()), dict(zip(names, pressure.tolist(), strict=True)))


def _joins(network: PurgeNetwork) -> Floats:
    """A row for each hole: 1 at its member, −1 at the member it leads into."""
    import numpy as np

    place = {member.name: at for at, member in enumerate(network.members)}
    joins = np.zeros((len(network.holes), len(network.members)))
    for row, hole in zip(joins, network.holes, strict=True):
        row[place[hole.member]] = 1.0
        if hole.into is not None:
            row[place[hole.into]] = -1.0
    return joins


def _supply_m3_per_s(network: PurgeNetwork) -> Floats:
    import numpy as np

    place = {member.name: at for at, member in enumerate(network.members)}
    supply = np.array([member.leak_ml_per_min / 60e6 for member in network.members])
    for inlet in network.inlets:
        supply[place[inlet.member]] += inlet.flow_l_per_min / 60e3
    return supply


def _resistance(hole_mm: float) -> float:
    area_m2 = math.pi * (hole_mm * 1e-3) ** 2 / 4.0
    return 0.5 * argon_density_kg_per_m3() / (DISCHARGE * area_m2) ** 2
