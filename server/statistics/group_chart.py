"""Means and ranges of small groups in time order."""

from __future__ import annotations

from collections.abc import Sequence
from math import fsum

from server.statistics.caveats import NOT_THE_JOINT, few_points
from server.statistics.chart import ControlChart, Track, level
from server.statistics.chart_constants import chart_constants
from server.statistics.errors import UnusableInput
from server.statistics.series import series


def group_chart(groups: Sequence[Sequence[float]]) -> ControlChart:
    """Chart the mean and the range of groups of one size.

    Equation: x̿ ± A2 R̄ for means; D3 R̄ to D4 R̄ for ranges.
    Inputs: groups of 2 to 25 readings each [any one unit], in time order.
    Result: ControlChart with tracks "mean" and "range" [the readings' unit].
    Example:
        >>> group_chart([[10, 12], [11, 9], [12, 10], [9, 12], [15, 18]]).tracks[0].signals
        (4,)

    Range and traps: a group holds what varies by chance alone, such as passes of one joint, never two cylinders.
    Source: ASTM E2587; NIST/SEMATECH e-Handbook 6.3.2.1.
    """
    rows = [series(f"groups[{place}]", group, at_least=2) for place, group in enumerate(groups)]
    sizes = {len(row) for row in rows}
    if len(rows) < 2 or len(sizes) != 1:
        raise UnusableInput("groups", sorted(sizes), "two groups or more, all of one size", "Chart single readings.")
    constants = chart_constants(sizes.pop())
    means = tuple(fsum(row) / len(row) for row in rows)
    ranges = tuple(max(row) - min(row) for row in rows)
    centre, mean_range = fsum(means) / len(means), fsum(ranges) / len(ranges)
    flat = mean_range == 0.0
    reach, least, most = constants.a2 * mean_range, constants.d3_limit * mean_range, constants.d4_limit * mean_range
    tracks = (
        Track("mean", means, centre, _line(flat, centre - reach, means), _line(flat, centre + reach, means)),
        Track("range", ranges, mean_range, _line(flat, least, means), _line(flat, most, means)),
    )
    figures = {"mean": centre, "mean_range": mean_range, "sigma": mean_range / constants.d2}
    told = ("All groups are flat: the instrument is too coarse to show any spread.",) if flat else ()
    return ControlChart("mean and range", tracks, figures, (*told, *few_points(len(rows)), NOT_THE_JOINT))


def _line(flat: bool, limit: float, points: tuple[float, ...]) -> tuple[float | None, ...]:
    """The limit for every point, or none where there is no spread to set one from."""
    return level(None if flat else limit, points)
