"""Draws a frame's side view for its dossier as SVG, black on white; what is open is filled, its own joint ringed."""

from collections.abc import Iterator, Mapping
from html import escape
from typing import Any

from server.plan.picture_parts import JointMark, Label, Picture, Point

_PAD_MM = 14.0
_GREY, _LINE, _BLACK = "#d5d5d5", "#8a8a8a", "#000"


def frame_drawing(picture: Picture | None, told: Mapping[str, Any]) -> dict[str, str]:
    """Give the drawing by its name; none where the design is not known."""
    if picture is None:
        return {}
    low, high = picture.low, picture.high
    across, down = high[0] - low[0] + 2 * _PAD_MM, high[1] - low[1] + 2 * _PAD_MM
    box = f"{low[0] - _PAD_MM:.1f} {-high[1] - _PAD_MM:.1f} {across:.1f} {down:.1f}"
    open_on = {joint["joint"] for joint in told["joints"] if joint["in_short"]["open"]}
    body = "".join((*_tubes(picture), *(_mark(each, open_on, told["joint"]) for each in picture.marks)))
    title = f"side view of {picture.design} {picture.size} with the names of its joints"
    return {
        "frame": f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="{box}" font-family="Libertinus Serif">'
        f"<title>{escape(title)}</title>{body}</svg>"
    }


def _tubes(picture: Picture) -> Iterator[str]:
    for line in picture.lines:
        fill = _GREY if line.closed else "none"
        look = f'fill="{fill}" stroke="{_GREY}" stroke-width="{line.width_mm:g}" stroke-linejoin="round"'
        yield f'<polyline points="{_points(line.points)}" {look}/>'


def _mark(mark: JointMark, open_on: set[str], about: str) -> str:
    radius, label = mark.radius_mm, mark.label
    parts = [_line(mark.tie)] if mark.tie else []
    parts.append(_ring(mark.centre, radius, _BLACK if mark.joint in open_on else "#fff", 1))
    parts += [_ring(mark.centre, radius * 1.9, "none", 4)] if mark.joint == about else []
    parts += [_line(label.leader)] if label.leader else []
    return "".join((*parts, _name(label)))


def _ring(centre: Point, radius: float, fill: str, width: float) -> str:
    at = f'cx="{centre[0]:.1f}" cy="{-centre[1]:.1f}" r="{radius:.1f}"'
    return f'<circle {at} fill="{fill}" stroke="{_BLACK}" stroke-width="{width:g}"/>'


def _name(label: Label) -> str:
    size, (x, y) = label.height_mm * 1.15, label.centre
    # The typesetter reads no dominant-baseline: a third of the height sets the letters on the middle.
    at = f'x="{x:.1f}" y="{-y + size / 3:.1f}" font-size="{size:.1f}" text-anchor="middle"'
    return f"<text {at}>{escape(label.text)}</text>"


def _line(ends: tuple[Point, Point]) -> str:
    (x1, y1), (x2, y2) = ends
    return f'<line x1="{x1:.1f}" y1="{-y1:.1f}" x2="{x2:.1f}" y2="{-y2:.1f}" stroke="{_LINE}" stroke-width="0.8"/>'


def _points(points: tuple[Point, ...]) -> str:
    return " ".join(f"{x:.1f},{-y:.1f}" for x, y in points)
