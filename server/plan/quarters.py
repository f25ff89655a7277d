"""The four arcs of a joint's mark: a clock face whose twelve points where the design says."""

import math

from server.facts.design import Joint
from server.facts.entry import QUARTERS
from server.plan.picture_parts import Point, QuarterArc

_TWELVE = {"up": 90.0, "forward": 0.0}
_OPEN_DEG = 7.0
_STEPS = 6


def quarter_arcs(joint: Joint, centre: Point, radius_mm: float) -> tuple[QuarterArc, ...]:
    """Four arcs with a small gap between them; a fitting's mark is one ring."""
    if not joint.quartered:
        return (QuarterArc("all", _arc(centre, radius_mm, 90.0, -270.0)),)
    twelve = _TWELVE[joint.twelve]
    return tuple(
        QuarterArc(quarter, _arc(centre, radius_mm, middle + 45 - _OPEN_DEG, middle - 45 + _OPEN_DEG))
        for quarter, middle in ((quarter, twelve - 90.0 * hour) for hour, quarter in enumerate(QUARTERS))
    )


def _arc(centre: Point, radius_mm: float, start_deg: float, end_deg: float) -> tuple[Point, ...]:
    steps = _STEPS * max(1, round(abs(end_deg - start_deg) / 90))
    angles = (math.radians(start_deg + (end_deg - start_deg) * step / steps) for step in range(steps + 1))
    return tuple((centre[0] + radius_mm * math.cos(a), centre[1] + radius_mm * math.sin(a)) for a in angles)
