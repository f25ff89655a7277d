"""Pictures of a recording: amps and volts against time, the beads found in them shaded and numbered."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from server.charts.axes import even_axis
from server.charts.curve_sheet import Curve, CurveSheet, Size, lay_out
from server.physics.trace_found import ArcSpan
from server.physics.trace_outline import OutlineStep, trace_outline
from server.work.trace_read import SeenTrace

if TYPE_CHECKING:
    from server.physics.arrays import Numbers

_SIZE = Size(960.0, 240.0)
_MOST_NUMBERED = 12


def trace_pictures(seen: SeenTrace) -> tuple[CurveSheet, ...]:
    """Draw the amps and the volts of a recording, one above the other."""
    beads = seen.found.beads
    return (
        _picture("amps", "A", seen.columns.time_s, seen.columns.amps, beads),
        _picture("volts", "V", seen.columns.time_s, seen.columns.volts, beads),
    )


def power_picture(seen: SeenTrace) -> CurveSheet:
    """Draw the power of a recording: volts times amps, reading by reading."""
    import numpy as np

    # An infinite reading times none is no power; the outline leaves it out.
    with np.errstate(invalid="ignore", over="ignore"):
        power = seen.columns.volts * seen.columns.amps
    return _picture("power", "W", seen.columns.time_s, power, seen.found.beads)


def _picture(name: str, unit: str, time_s: Numbers, readings: Numbers, beads: Sequence[ArcSpan]) -> CurveSheet:
    outline = trace_outline(time_s, readings)
    highest = max((step.high for step in outline), default=0.0)
    axes = (
        even_axis("seconds", min(step.at_s for step in outline), max(step.at_s for step in outline)),
        even_axis(f"{name} [{unit}]", min(0.0, *(step.low for step in outline)), max(1.5 * highest, 1.0)),
    )
    shaded = [Curve(f"bead {number}", "area-bead", _span(bead, axes[1].high)) for number, bead in enumerate(beads, 1)]
    numbered = [(f"bead {number}", bead.start_s) for number, bead in enumerate(beads[:_MOST_NUMBERED], 1)]
    words = f"{name} against time, {len(beads)} bead{'s' if len(beads) != 1 else ''} found"
    return lay_out(words, [*shaded, Curve(name, "area-trace", _band(outline))], axes, moments=numbered, size=_SIZE)


def _span(bead: ArcSpan, high: float) -> list[tuple[float, float]]:
    return [(bead.start_s, 0.0), (bead.start_s, high), (bead.end_s, high), (bead.end_s, 0.0)]


def _band(outline: Sequence[OutlineStep]) -> list[tuple[float, float]]:
    high = [(step.at_s, step.high) for step in outline]
    return [*high, *((step.at_s, step.low) for step in reversed(outline))]
