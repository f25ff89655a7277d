"""Where each joint's mark stands: in the gap of the tube that lands, slid along it until no two marks touch."""

import math
from collections.abc import Iterator
from typing import NamedTuple

from server.facts.design import Design, Joint, Member
from server.plan.picture_parts import Point
from server.plan.space import Spot, along, centre_line, flat, length_mm, spot

APART = 2.3
"""Distance between two marks' centres at least, in radii."""
_STEPS = 24
_RING = 16


class Placed(NamedTuple):
    """Where a mark stands, and where its seam is."""

    centre: Point
    seam: Point


def mark_places(design: Design, size: str, radius_mm: float) -> dict[str, Placed]:
    """The place of every joint's mark, seams before fittings, in the design's usual order."""
    usual = {name: place for place, name in enumerate(design.order)}
    joints = sorted(design.joints, key=lambda j: (not j.structural, usual.get(j.id, len(usual))))
    placed: dict[str, Placed] = {}
    for joint in joints:
        choices = [_shifted(at, joint) for at in _choices(design, size, joint, radius_mm)]
        taken = [other.centre for other in placed.values()]
        placed[joint.id] = Placed(_first_clear(choices, taken, APART * radius_mm), choices[0])
    return placed


def _first_clear(choices: list[Point], taken: list[Point], apart_mm: float) -> Point:
    def room(at: Point) -> float:
        return min((math.dist(at, other) for other in taken), default=math.inf)

    return next((at for at in choices if room(at) >= apart_mm), max(choices, key=room))


def _choices(design: Design, size: str, joint: Joint, radius_mm: float) -> Iterator[Point]:
    line, start = _line_and_start(design, size, joint)
    first = flat(design, along(line, start) if len(line) > 1 else line[0])
    yield first
    inward = min(_STEPS * radius_mm / 4, length_mm(line) / 2)
    slides = [n * radius_mm / 4 for n in range(1, _STEPS) if n * radius_mm / 4 <= inward]
    outward = [-slide for slide in slides] if joint.part_way is not None else []
    for slide in sorted([*slides, *outward], key=abs):
        yield flat(design, along(line, start + slide))
    yield from _ring(first, radius_mm)


def _line_and_start(design: Design, size: str, joint: Joint) -> tuple[list[Spot], float]:
    members = {member.id: member for member in design.members}
    if joint.part_way is not None:
        line = centre_line(design, size, members[joint.at])
        return line, joint.part_way * length_mm(line)
    line = _from_seam(design, size, members[joint.parts[0]], joint.at)
    landing = members[joint.parts[1]].od_mm / 2 if joint.landing_mm is None else joint.landing_mm
    return line or [spot(design, size, joint.at)], landing


def _from_seam(design: Design, size: str, member: Member, node: str) -> list[Spot]:
    if len(member.between) < 2 or node not in (member.between[0], member.between[-1]):
        return []
    line = centre_line(design, size, member)
    return line if member.between[0] == node else line[::-1]


def _shifted(at: Point, joint: Joint) -> Point:
    return at[0] + joint.shift_mm[0], at[1] + joint.shift_mm[1]


def _ring(centre: Point, radius_mm: float) -> Iterator[Point]:
    for out in range(2, 12):
        for n in range(_RING):
            angle = 2 * math.pi * n / _RING
            by = out * radius_mm / 2
            yield centre[0] + by * math.cos(angle), centre[1] + by * math.sin(angle)
