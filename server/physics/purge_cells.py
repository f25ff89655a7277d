"""A purge as cells that exchange gas: a member the gas sweeps is one mixed cell, a dead end a row of them."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from server.physics.argon import oxygen_in_argon_m2_per_s
from server.physics.purge_balance import Balance
from server.physics.purge_flow import PurgeFlow
from server.physics.purge_network import PurgeHole, PurgeMember, PurgeNetwork
from server.physics.purge_reach import spread
from server.physics.purge_single import AIR_OXYGEN_PPM

if TYPE_CHECKING:
    from server.physics.arrays import Floats


@dataclass(frozen=True, slots=True)
class PurgeCells:
    """Oxygen C in all cells follows C' = rate · C + source [1/s, ppm/s]; the cells of each member; the dead ends."""

    rate_per_s: Floats
    source_ppm_per_s: Floats
    cells: dict[str, range]
    dead_ends: tuple[str, ...]


def part_into_cells(network: PurgeNetwork, flow: PurgeFlow, dead_end_cells: int) -> PurgeCells:
    """Part a purge into cells and write down what passes between them, by flow and by diffusion."""
    mouths = _mouths(network, flow)
    cells = _number_cells(network, mouths, dead_end_cells)
    members = {member.name: member for member in network.members}
    balance = Balance(sum(len(own) for own in cells.values()))
    for at, hole in enumerate(network.holes):
        here = _cell(hole.member, at, mouths, cells)
        ease = _hole_ease(hole, [members[name] for name in (hole.member, hole.into) if name in mouths], dead_end_cells)
        there = None if hole.into is None else _cell(hole.into, at, mouths, cells)
        balance.join(here, there, flow.hole_m3_per_s[at], ease)
    for name, mouth in mouths.items():
        inward = 1.0 if network.holes[mouth].into == name else -1.0
        _fill_dead_end(balance, members[name], cells[name], inward * flow.hole_m3_per_s[mouth])
    for inlet in network.inlets:
        balance.feed(cells[inlet.member][0], inlet.flow_l_per_min / 60e3, inlet.oxygen_ppm)
    for member in network.members:
        balance.feed(cells[member.name][-1], member.leak_ml_per_min / 60e6, AIR_OXYGEN_PPM)
    volumes_m3 = [
        member.volume_l * 1e-3 / len(own) for member in network.members for own in [cells[member.name]] for _ in own
    ]
    return PurgeCells(*balance.per_volume(volumes_m3), cells, tuple(mouths))


def _mouths(network: PurgeNetwork, flow: PurgeFlow) -> dict[str, int]:
    """The members that no gas flows into, each with the hole that lies nearest to the flow."""
    ways = (_downstream(hole, rate) for hole, rate in zip(network.holes, flow.hole_m3_per_s, strict=True) if rate)
    reached = spread((inlet.member for inlet in network.inlets), (way for way in ways if way))
    mouths: dict[str, int] = {}
    while len(reached) < len(network.members):
        for at, hole in enumerate(network.holes):
            new = {hole.member, hole.into} - reached - {None}
            if hole.into is not None and len(new) == 1:
                mouths.update({name: at for name in new if name})
                reached |= mouths.keys()
    return mouths


def _downstream(hole: PurgeHole, rate: float) -> tuple[str, str] | None:
    if hole.into is None:
        return None
    return (hole.member, hole.into) if rate > 0.0 else (hole.into, hole.member)


def _number_cells(network: PurgeNetwork, mouths: dict[str, int], dead_end_cells: int) -> dict[str, range]:
    cells: dict[str, range] = {}
    first = 0
    for member in network.members:
        after = first + (dead_end_cells if member.name in mouths else 1)
        cells[member.name] = range(first, after)
        first = after
    return cells


def _cell(name: str, hole_at: int, mouths: dict[str, int], cells: dict[str, range]) -> int:
    """A hole opens into the first cell of a dead end if it is its mouth, else into the last."""
    return cells[name][0] if mouths.get(name, hole_at) == hole_at else cells[name][-1]


def _hole_ease(hole: PurgeHole, dead_ends: list[PurgeMember], dead_end_cells: int) -> float:
    """Diffusion through a hole [m³/s], with half a cell of each dead end that it opens into."""
    hole_m = hole.diameter_mm * 1e-3
    path_m = hole.wall_mm * 1e-3 + math.pi * hole_m / 4.0
    ways = [math.pi * hole_m**2 / 4.0 / path_m * oxygen_in_argon_m2_per_s()]
    ways += [2.0 * _cell_ease(member, dead_end_cells) for member in dead_ends]
    return 1.0 / sum(1.0 / way for way in ways)


def _cell_ease(member: PurgeMember, count: int) -> float:
    """Diffusion from one cell of a dead end to the next [m³/s]."""
    length_m = member.length_mm * 1e-3
    return oxygen_in_argon_m2_per_s() * (member.volume_l * 1e-3 / length_m) * count / length_m


def _fill_dead_end(balance: Balance, member: PurgeMember, cells: range, inward: float) -> None:
    for here in cells[:-1]:
        balance.join(here, here + 1, inward, _cell_ease(member, len(cells)))
