"""The side view as a tablet draws it: plain numbers, with names large enough to be read through a lifted hood."""

import math
from collections.abc import Iterable
from typing import Any

from server.facts.design import Design
from server.plan.labels import place_labels
from server.plan.picture import side_view
from server.plan.picture_parts import JointMark, Label, Picture, Point
from server.work.reckoned import reckoned

_LETTER_SHARE = 0.0285


def picture_told(design: Design, size: str) -> dict[str, Any]:
    """Give the side view of a design in one size."""
    return reckoned(("picture", design.sha256, design.name, size), lambda: _told(side_view(design, size)))


def _told(picture: Picture) -> dict[str, Any]:
    """Give the side view with names large enough to be read through a lifted hood; fittings are named when tapped."""
    letter_mm = _LETTER_SHARE * math.dist(picture.low, picture.high)
    discs = {_with_word(mark): (mark.centre, mark.radius_mm) for mark in picture.marks if mark.structural}
    names = place_labels(discs, picture.lines, letter_mm)
    low, high = _with_names(picture, names.values())
    return {
        "low": _rounded(low),
        "high": _rounded(high),
        "lines": [
            {
                "title": line.title,
                "width_mm": line.width_mm,
                "closed": line.closed,
                "points": [_rounded(point) for point in line.points],
            }
            for line in picture.lines
        ],
        "marks": [_mark_told(mark, names.get(_with_word(mark))) for mark in picture.marks],
    }


def _with_word(mark: JointMark) -> str:
    """Give the longest a name gets, so that there is room for the word beside it however far the joint has come."""
    return f"{mark.joint} done"


def _mark_told(mark: JointMark, name: Label | None) -> dict[str, Any]:
    return {
        "joint": mark.joint,
        "centre": _rounded(mark.centre),
        "radius_mm": round(mark.radius_mm, 2),
        "arcs": [{"quarter": arc.quarter, "points": [_rounded(point) for point in arc.points]} for arc in mark.arcs],
        "label": _name_told(name) if name else None,
        "tie": [_rounded(point) for point in mark.tie] if mark.tie else None,
    }


def _name_told(name: Label) -> dict[str, Any]:
    return {
        "centre": _rounded(name.centre),
        "width_mm": round(name.width_mm, 1),
        "height_mm": round(name.height_mm, 2),
        "leader": [_rounded(point) for point in name.leader] if name.leader else None,
    }


def _with_names(picture: Picture, names: Iterable[Label]) -> tuple[Point, Point]:
    """Give the corners of everything drawn, the larger names included."""
    reach = [(name.centre, name.width_mm / 2, name.height_mm / 2) for name in names]
    reach += [(mark.centre, mark.radius_mm, mark.radius_mm) for mark in picture.marks]
    reach += [(point, line.width_mm / 2, line.width_mm / 2) for line in picture.lines for point in line.points]
    low = min(x - wide for (x, _), wide, _ in reach), min(y - high for (_, y), _, high in reach)
    return low, (max(x + wide for (x, _), wide, _ in reach), max(y + high for (_, y), _, high in reach))


def _rounded(point: Point) -> list[float]:
    return [round(point[0], 1), round(point[1], 1)]
