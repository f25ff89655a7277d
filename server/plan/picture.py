"""The side view of a frame, drawn from its design alone."""

import math
from collections.abc import Iterable
from functools import lru_cache

from server.facts.design import Design, Joint
from server.plan.labels import place_labels
from server.plan.marks import Placed, mark_places
from server.plan.picture_parts import JointMark, Label, Picture, Point
from server.plan.quarters import quarter_arcs
from server.plan.tubes import tube_lines

MARK_SHARE = 0.011
"""Radius of a seam's mark as a share of the picture's diagonal."""
_FITTING = 0.55
_LETTER = 1.3


class _ThisDesign:
    """A design as itself: one that was read once is the same for as long as its release is the last."""

    def __init__(self, design: Design) -> None:
        self.design = design

    def __hash__(self) -> int:
        return id(self.design)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _ThisDesign) and other.design is self.design


def side_view(design: Design, size: str) -> Picture:
    """Tubes as lines, joints as gaps that close in four quarters, names that do not overlap; drawn once a design."""
    return _drawn(_ThisDesign(design), size)


@lru_cache(maxsize=64)
def _drawn(of: _ThisDesign, size: str) -> Picture:
    design = of.design
    lines = tube_lines(design, size)
    corners = _around(point for line in lines for point in line.points)
    radius = MARK_SHARE * math.dist(*corners)
    places = mark_places(design, size, radius)
    discs = {j.id: (places[j.id].centre, radius if j.quartered else radius * _FITTING) for j in design.joints}
    labels = place_labels(discs, lines, _LETTER * radius)
    marks = tuple(_mark(joint, places[joint.id], discs[joint.id][1], labels[joint.id]) for joint in design.joints)
    low, high = _around([*corners, *(corner for mark in marks for corner in _corners(mark))])
    return Picture(design.name, size, lines, marks, low, high)


def _mark(joint: Joint, at: Placed, radius: float, label: Label) -> JointMark:
    arcs = quarter_arcs(joint, at.centre, radius)
    tie = (at.seam, at.centre) if math.dist(at.seam, at.centre) > radius else None
    return JointMark(joint.id, joint.title, at.centre, radius, arcs, label, joint.structural, tie)


def _corners(mark: JointMark) -> tuple[Point, ...]:
    (x, y), r = mark.centre, mark.radius_mm
    (lx, ly), wide, high = mark.label.centre, mark.label.width_mm / 2, mark.label.height_mm / 2
    return (x - r, y - r), (x + r, y + r), (lx - wide, ly - high), (lx + wide, ly + high)


def _around(points: Iterable[Point]) -> tuple[Point, Point]:
    xs, ys = zip(*points, strict=True)
    return (min(xs), min(ys)), (max(xs), max(ys))
