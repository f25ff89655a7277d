"""Picture of a hold: the hottest metal against time, with the band it may lie in and the limit it has to fall under."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from server.charts.axes import even_axis
from server.charts.curve_sheet import Curve, CurveSheet, Size, lay_out
from server.physics.band import Band
from server.physics.cooling_course import hottest_after_c
from server.physics.cooling_weld import TubeWeld
from server.physics.hold_time import CALIBRATED_SPREAD

_MOMENTS = 40
_HIGHEST_C = 1000.0


@dataclass(frozen=True, slots=True)
class HoldPicture:
    """The course of the hottest metal, laid out."""

    course: CurveSheet


def hold_picture(weld: TubeWeld, limit_c: float, hold: Band, factor: float | None) -> HoldPicture:
    """Draw how the hottest metal cools; with a shop's factor the course is stretched by it and its band is narrow."""
    until_s = max(1.35 * hold.high, 1.0)
    stretch = factor or 1.0
    after_s = [until_s * (at + 1) / _MOMENTS for at in range(_MOMENTS)]
    bands = hottest_after_c(weld, [moment / stretch for moment in after_s])
    middle = [(moment, band.expected) for moment, band in zip(after_s, bands, strict=True)]
    edge = _metal_edge(after_s, bands) if factor is None else _shop_edge(middle)
    top_c = min(_HIGHEST_C, max(1.1 * limit_c, middle[0][1]))
    axes = even_axis("after the arc [s]", 0.0, until_s), even_axis("hottest metal [°C]", min(0.0, weld.start_c), top_c)
    curves = [Curve("where it may lie", "area-band", edge), Curve("expected", "marked", middle)]
    moments = [(f"{hold.low:.0f} s at the least", hold.low), (f"{math.ceil(hold.high)} s at the most", hold.high)]
    words = f"The hottest metal cools to {limit_c:.0f} °C in {hold.low:.0f} to {math.ceil(hold.high)} s"
    limits = [(f"{limit_c:.0f} °C", limit_c)]
    return HoldPicture(lay_out(words, curves, axes, limits=limits, moments=moments, size=Size(720.0, 340.0)))


def _metal_edge(after_s: Sequence[float], bands: Sequence[Band]) -> list[tuple[float, float]]:
    high = [(moment, band.high) for moment, band in zip(after_s, bands, strict=True)]
    low = [(moment, band.low) for moment, band in zip(after_s, bands, strict=True)]
    return [*high, *reversed(low)]


def _shop_edge(middle: Sequence[tuple[float, float]]) -> list[tuple[float, float]]:
    """A calibrated time is sure to a share of itself, so the band is the course moved along by that share."""
    late = [(moment * (1.0 + CALIBRATED_SPREAD), rise) for moment, rise in middle]
    early = [(moment * (1.0 - CALIBRATED_SPREAD), rise) for moment, rise in middle]
    return [*late, *reversed(early)]
