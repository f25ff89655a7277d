"""Where in a trace the arc is on: hysteresis between an on-level and an off-level."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from server.physics.arrays import Numbers, Places, Signs, Truths


@dataclass(frozen=True, slots=True)
class ArcOn:
    """When a trace shows an arc, and what is too short to count; between the two levels nothing changes."""

    on_a: float = 5.0
    on_v: tuple[float, float] = (5.0, 30.0)
    off_a: float = 2.0
    off_v: tuple[float, float] = (2.5, 45.0)
    shortest_arc_s: float = 0.02
    shortest_break_s: float = 0.02
    longest_gap_s: float = 1.0


def arc_stretches(amps: Numbers, volts: Numbers, was_on: bool, levels: ArcOn) -> tuple[Places, Truths]:
    """First samples of the stretches with one state, and whether the arc is on in each; the first starts at 0."""
    import numpy as np

    on = (amps >= levels.on_a) & (volts >= levels.on_v[0]) & (volts <= levels.on_v[1])
    if on.all():
        return np.zeros(1, np.intp), np.ones(1, np.bool_)
    off = (amps < levels.off_a) | (volts < levels.off_v[0]) | (volts > levels.off_v[1])
    sign = on.view(np.int8) - off.view(np.int8)
    first = np.concatenate((np.zeros(1, np.intp), np.flatnonzero(sign[1:] != sign[:-1]) + 1))
    held = _held(sign[first], was_on)
    kept = np.concatenate((np.ones(1, np.bool_), held[1:] != held[:-1]))
    return first[kept], held[kept]


def _held(sign: Signs, was_on: bool) -> Truths:
    """Carry the last sure state through the stretches that say nothing."""
    import numpy as np

    sure = np.concatenate((np.array([1 if was_on else -1], np.int8), sign))
    last_sure = np.maximum.accumulate(np.where(sure != 0, np.arange(sure.size), 0))
    return sure[last_sure[1:]] > 0
