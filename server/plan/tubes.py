"""The lines of a side view: tubes, parts seen end on, plates."""

import math

from server.facts.design import Design, Member
from server.plan.picture_parts import Point, TubeLine
from server.plan.space import centre_line, flat

_CIRCLE_STEPS = 24
_TAB_MM = 6.0


def tube_lines(design: Design, size: str) -> tuple[TubeLine, ...]:
    """Every member that is drawn, the one farthest from the looker first."""
    drawn = [member for member in design.members if member.between]
    drawn.sort(key=lambda member: (_depth(design, size, member), len(member.between) == 1))
    return tuple(line for member in drawn for line in _lines(design, size, member))


def _depth(design: Design, size: str, member: Member) -> float:
    line = centre_line(design, size, member)
    return sum(at.z for at in line) / len(line)


def _lines(design: Design, size: str, member: Member) -> list[TubeLine]:
    points = tuple(flat(design, at) for at in centre_line(design, size, member))
    if len(points) > 1:
        outline = member.shape == "plate" and len(points) > 2
        width = _TAB_MM if member.shape == "plate" else member.od_mm
        return [TubeLine(member.id, member.title, width, points, closed=outline)]
    if member.shape == "plate":
        return [TubeLine(member.id, member.title, _TAB_MM, tab) for tab in _tabs(design, size, member, points[0])]
    return [TubeLine(member.id, member.title, member.wall_mm, _circle(points[0], member.od_mm / 2), closed=True)]


def _tabs(design: Design, size: str, plate: Member, hub: Point) -> list[tuple[Point, Point]]:
    members = {member.id: member for member in design.members}
    landing = [members.get(joint.parts[0]) for joint in design.joints if joint.parts[1] == plate.id]
    lines = (centre_line(design, size, member) for member in landing if member and len(member.between) > 1)
    ends = (flat(design, line[-2] if flat(design, line[-1]) == hub else line[1]) for line in lines)
    return [(hub, _toward(hub, end, plate.od_mm / 2)) for end in ends]


def _toward(start: Point, end: Point, by_mm: float) -> Point:
    reach = math.dist(start, end) or 1.0
    return start[0] + (end[0] - start[0]) / reach * by_mm, start[1] + (end[1] - start[1]) / reach * by_mm


def _circle(centre: Point, radius_mm: float) -> tuple[Point, ...]:
    angles = (2 * math.pi * step / _CIRCLE_STEPS for step in range(_CIRCLE_STEPS))
    return tuple((centre[0] + radius_mm * math.cos(a), centre[1] + radius_mm * math.sin(a)) for a in angles)
