"""Points in space [mm]: a member's centre line with its bends, cut short, measured, and laid flat into the picture."""

import math
from itertools import pairwise
from typing import NamedTuple

from server.facts.design import Design, Member
from server.plan.picture_parts import Point

_BEND_STEPS = 12


class Spot(NamedTuple):
    """A point in space: x forward, y up, z to the rider's right [mm]."""

    x: float
    y: float
    z: float


def spot(design: Design, size: str, node: str) -> Spot:
    """Where a node stands; without a depth it stands in the middle plane."""
    x, y = design.nodes[size][node]
    return Spot(x, y, design.depth.get(size, {}).get(node, 0.0))


def flat(design: Design, at: Spot) -> Point:
    """Where a point in space is drawn."""
    return at.x + design.view[0] * at.z, at.y + design.view[1] * at.z


def centre_line(design: Design, size: str, member: Member) -> list[Spot]:
    """A member's centre line through its nodes, each bend rounded to the member's bend radius."""
    corners = [spot(design, size, node) for node in member.between]
    if member.bend_mm is None or len(corners) < 3:
        return corners
    line = [corners[0]]
    for before, corner, after in zip(corners, corners[1:], corners[2:], strict=False):
        line += rounded(before, corner, after, member.bend_mm)
    return [*line, corners[-1]]


def rounded(before: Spot, corner: Spot, after: Spot, radius_mm: float) -> list[Spot]:
    """Points along the arc that rounds a corner; a corner that runs straight on stays a point."""
    back, on = _unit(corner, before), _unit(corner, after)
    turn = math.pi - math.acos(max(-1.0, min(1.0, _dot(back, on))))
    if turn < 1e-6 or turn > math.pi - 1e-6:
        return [corner]
    start = _plus(corner, back, radius_mm * math.tan(turn / 2))
    middle = _unit(Spot(0, 0, 0), _plus(back, on, 1.0))
    centre = _plus(corner, middle, radius_mm / math.cos(turn / 2))
    inward = _unit(centre, start)
    steps = (turn * step / _BEND_STEPS for step in range(_BEND_STEPS + 1))
    return [_plus(_plus(centre, inward, radius_mm * math.cos(a)), back, -radius_mm * math.sin(a)) for a in steps]


def length_mm(line: list[Spot]) -> float:
    """Length of a line through points [mm]."""
    return sum(math.dist(a, b) for a, b in pairwise(line))


def along(line: list[Spot], distance_mm: float) -> Spot:
    """The point so far along a line; before its start or past its end, the line is drawn on straight."""
    for a, b in pairwise(line):
        reach = math.dist(a, b)
        if distance_mm <= reach or b is line[-1]:
            return _plus(a, _unit(a, b), distance_mm)
        distance_mm -= reach
    return line[0]


def _plus(at: Spot, way: Spot, by: float) -> Spot:
    return Spot(at.x + way.x * by, at.y + way.y * by, at.z + way.z * by)


def _dot(a: Spot, b: Spot) -> float:
    return a.x * b.x + a.y * b.y + a.z * b.z


def _unit(start: Spot, end: Spot) -> Spot:
    reach = math.dist(start, end) or 1.0
    return Spot((end.x - start.x) / reach, (end.y - start.y) / reach, (end.z - start.z) / reach)
