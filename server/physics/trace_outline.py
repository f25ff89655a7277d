"""The outline of a long column for a picture: the lowest and highest reading of each stretch."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from server.physics.errors import UnusableInput

if TYPE_CHECKING:
    from server.physics.arrays import Numbers


class OutlineStep(NamedTuple):
    """One stretch: the moment it begins [s], and the lowest and highest reading in it."""

    at_s: float
    low: float
    high: float


def trace_outline(time_s: Numbers, readings: Numbers, steps: int = 600) -> tuple[OutlineStep, ...]:
    """The lowest and highest readings of a column, stretch by stretch, as many stretches as a picture has room for.

    Equation: min and max over each stretch of ⌈n / steps⌉ samples
    Inputs: time_s [s] and readings [any unit], of one length; steps, at most so many stretches [1].
    Result: an OutlineStep for each stretch with any number in it.
    Example:
        >>> import numpy as np
        >>> trace_outline(np.arange(6.0), np.array([1.0, 9.0, 2.0, 3.0, np.nan, 4.0]), steps=3)[0]
        OutlineStep(at_s=0.0, low=1.0, high=9.0)

    Range and traps: For looking at. A pulse shorter than a stretch shows as a band, not as a wave. Stretches without a
        number are left out, so a gap shows as a gap or, where the clock went on, as a straight line.
    Source: a picture has only so many places.
    """
    import numpy as np

    if time_s.shape != readings.shape or time_s.ndim != 1 or time_s.size == 0:
        shapes = (time_s.shape, readings.shape)
        raise UnusableInput("readings", shapes, "times and readings of one length", "Give the columns of one trace.")
    starts = np.arange(0, time_s.size, -(-time_s.size // max(steps, 1)))
    # An infinity is no reading either, and would leave the picture's axis without an end.
    seen = np.isfinite(readings)
    low = np.minimum.reduceat(np.where(seen, readings, np.inf), starts)
    high = np.maximum.reduceat(np.where(seen, readings, -np.inf), starts)
    kept = np.flatnonzero((low <= high) & np.isfinite(time_s[starts]))
    return tuple(OutlineStep(float(time_s[starts[k]]), float(low[k]), float(high[k])) for k in kept)
