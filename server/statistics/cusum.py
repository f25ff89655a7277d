"""Sums of what readings lie above or below target by, for small lasting shifts."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import accumulate

from server.statistics.caveats import NOT_THE_JOINT
from server.statistics.chart import ControlChart, Track, level
from server.statistics.inputs import finite, positive
from server.statistics.series import series


def cusum_chart(
    values: Iterable[float], target: float, sigma: float, allowance: float = 0.5, decision: float = 5.0
) -> ControlChart:
    """Chart the two one-sided cumulative sums of single readings.

    Equation: up_i = max(0, up_(i−1) + (x_i − target)/σ − k), down_i the same with the sign turned; signal above h.
    Inputs: values, target, sigma σ [one unit]; allowance k, decision h [σ].
    Result: ControlChart with tracks "up" and "down" [σ].
    Example:
        >>> chart = cusum_chart([10, 12, 12, 13, 12], target=10.0, sigma=1.0)
        >>> chart.track("up").signals, chart.figures["up_began_at"]
        ((3, 4), 1)

    Range and traps: target and sigma come from a steady time. `..._began_at` is a guess at where the shift began.
    Source: Montgomery, Introduction to Statistical Quality Control, chapter on the tabular cusum.
    """
    middle, spread = finite("target", target), positive("sigma", sigma)
    steps = [(reading - middle) / spread for reading in series("values", values)]
    slack, limit = finite("allowance", allowance), positive("decision", decision)
    up = _sums(steps, slack)
    down = _sums([-step for step in steps], slack)
    tracks = tuple(
        Track(name, sums, 0.0, level(None, sums), level(limit, sums)) for name, sums in (("up", up), ("down", down))
    )
    figures = {f"{track.name}_began_at": began for track in tracks if (began := _began(track)) is not None}
    late = "It shows that a shift lasted, not which entry caused it."
    return ControlChart("cusum", tracks, figures, (late, NOT_THE_JOINT))


def _sums(steps: list[float], slack: float) -> tuple[float, ...]:
    """The running sum that never falls below zero."""
    return tuple(accumulate(steps, lambda total, step: max(0.0, total + step - slack), initial=0.0))[1:]


def _began(track: Track) -> int | None:
    """The position after the last zero before the first signal, or nothing without a signal."""
    if not track.signals:
        return None
    before = [position for position in range(track.signals[0]) if track.points[position] == 0.0]
    return before[-1] + 1 if before else 0
