"""Single readings in time order, against the spread from one to the next."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import pairwise
from math import fsum

from server.statistics.caveats import NOT_THE_JOINT, drawn_from, few_points, not_below
from server.statistics.chart import ControlChart, Track, level
from server.statistics.series import series

# As every printed chart takes them: d2 and D4 for pairs, to three decimals.
_D2_OF_PAIRS = 1.128
_D4_OF_PAIRS = 3.267


def individuals_chart(values: Iterable[float], baseline: int | None = None, least: float | None = None) -> ControlChart:
    """Chart single readings and their moving range.

    Equation: centre x̄; limits x̄ ± 3 MR̄/1.128; range MR_i = |x_i − x_(i−1)| with upper limit 3.267 MR̄.
    Inputs: values [any one unit], in time order; baseline [count]: how many of the first set the limits, else all;
        least [the values' unit]: below it no reading can be, and no limit is drawn.
    Result: ControlChart with tracks "individuals" and "moving range" [the values' unit].
    Example:
        >>> chart = individuals_chart([12, 11, 13, 12, 12, 19], baseline=5)
        >>> chart.tracks[0].signals
        (5,)

    Range and traps: 2 values or more. Equal neighbours throughout leave no spread and so no limits.
    Source: NIST/SEMATECH e-Handbook 6.3.2.2; leaving out a limit below least is common practice, no source known.
    """
    points = series("values", values, at_least=2)
    ground = series("baseline", points[:baseline], at_least=2)
    centre = fsum(ground) / len(ground)
    ranges = tuple(abs(after - before) for before, after in pairwise(points))
    mean_range = fsum(ranges[: len(ground) - 1]) / (len(ground) - 1)
    reach = 3.0 * mean_range / _D2_OF_PAIRS
    lower, upper, widest = (centre - reach, centre + reach, _D4_OF_PAIRS * mean_range) if reach else (None,) * 3
    lowers = level(lower, points)
    caveats = (*_caveats(len(ground), mean_range), *not_below(least, lowers))
    tracks = (
        Track("individuals", points, centre, drawn_from(least, lowers), level(upper, points)),
        Track("moving range", (None, *ranges), mean_range, level(None, points), level(widest, points)),
    )
    figures = {"mean": centre, "mean_range": mean_range, "sigma": mean_range / _D2_OF_PAIRS}
    return ControlChart("individuals and moving range", tracks, figures, caveats)


def _caveats(count: int, mean_range: float) -> tuple[str, ...]:
    """What this chart cannot tell."""
    flat = () if mean_range else ("All readings are equal: the instrument is too coarse to show any spread.",)
    shape = "It takes readings as even about their centre; oxygen readings near zero lean to one side."
    return (*flat, *few_points(count), shape, NOT_THE_JOINT)
