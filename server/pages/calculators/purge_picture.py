"""Pictures of a purge: the oxygen of every member against time, and the frame with its slowest member marked."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from server.charts.axes import even_axis, powers_axis
from server.charts.curve_sheet import Curve, CurveSheet, Size, lay_out
from server.facts.design import Design
from server.pages.calculators.purge_form import Chosen
from server.pages.calculators.purge_members import MemberLine
from server.physics.purge_forecast import PurgeForecast
from server.plan.picture import side_view
from server.plan.picture_parts import Picture, Point, TubeLine

_LOWEST_PPM = 1.0


@dataclass(frozen=True, slots=True)
class FrameLine:
    """A tube of the picture: how it is drawn (`away`, `in`, `slowest`, `shut`), its middle, and where its words end."""

    line: TubeLine
    look: str
    middle: Point
    words_end: Point


@dataclass(frozen=True, slots=True)
class PurgePicture:
    """The frame with its members marked, where there is a design, and the curves, where there is an answer."""

    lines: tuple[FrameLine, ...] = ()
    low: Point = (0.0, 0.0)
    high: Point = (0.0, 0.0)
    inlet: Point | None = None
    inlet_title: str = ""
    curves: CurveSheet | None = None


def frame_picture(chosen: Chosen, slowest: str, shut: frozenset[str] = frozenset()) -> PurgePicture:
    """Mark the members of the set-up on the side view, the slowest and those no gas reaches with words of their own."""
    if chosen.design is None or chosen.setup is None:
        return PurgePicture()
    view = _view(_Same(chosen.design), chosen.size)
    looks = dict.fromkeys(chosen.setup.members, "in") | {slowest: "slowest"} | dict.fromkeys(shut, "shut")
    lines = tuple(_frame_line(line, looks.get(line.member, "away")) for line in view.lines)
    inlet = next((each.middle for each in lines if each.line.member == chosen.setup.inlet), None)
    return PurgePicture(lines, view.low, view.high, inlet, chosen.setup.inlet_title or "gas in")


def curve_picture(members: Sequence[MemberLine], forecast: PurgeForecast, target_ppm: float) -> CurveSheet:
    """Lay the members' oxygen out by powers of ten, the slowest on top of the others."""
    times = [float(moment) / 60.0 for moment in forecast.after_s]
    curves = [
        Curve(each.title, each.look, list(zip(times, map(float, forecast.oxygen_ppm[each.name]), strict=True)))
        for each in reversed(members)
    ]
    lowest = max(_LOWEST_PPM, min(0.5 * target_ppm, *(float(ppm[-1]) for ppm in forecast.oxygen_ppm.values())))
    axes = even_axis("minutes after the gas is on", 0.0, times[-1]), powers_axis("oxygen [ppm]", lowest, 209_460.0)
    return lay_out(
        f"Oxygen of each member against time; the slowest is {members[0].title}",
        curves,
        axes,
        limits=[(f"wanted: {target_ppm:g} ppm", target_ppm)],
        size=Size(720.0, 380.0),
    )


class _Same:
    """A design that stands for itself in the memory of pictures, as its text cannot have changed while it is kept."""

    def __init__(self, design: Design) -> None:
        self.design = design

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Same) and other.design == self.design

    def __hash__(self) -> int:
        return hash(self.design.sha256)


@lru_cache(maxsize=16)
def _view(same: _Same, size: str) -> Picture:
    return side_view(same.design, size)


def _frame_line(line: TubeLine, look: str) -> FrameLine:
    x, y = middle = _middle(line.points)
    return FrameLine(line, look, middle, (x - 0.5 * line.width_mm - 16.0, y + 0.5 * line.width_mm + 4.0))


def _middle(points: Sequence[Point]) -> Point:
    """The middle of the longest stretch of a line, where words about it stand best."""
    pairs = list(pairwise(points)) or [(points[0], points[0])]
    (ax, ay), (bx, by) = max(pairs, key=lambda pair: (pair[0][0] - pair[1][0]) ** 2 + (pair[0][1] - pair[1][1]) ** 2)
    return (ax + bx) / 2.0, (ay + by) / 2.0
