"""A running mean that forgets slowly, for small lasting shifts."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import accumulate
from math import sqrt

from server.statistics.caveats import NOT_THE_JOINT, drawn_from, not_below
from server.statistics.chart import ControlChart, Track
from server.statistics.errors import UnusableInput
from server.statistics.inputs import finite, positive
from server.statistics.series import series


def ewma_chart(
    values: Iterable[float],
    centre: float,
    sigma: float,
    weight: float = 0.2,
    width: float = 3.0,
    start: float | None = None,
    least: float | None = None,
) -> ControlChart:
    """Chart the exponentially weighted moving average of single readings.

    Equation: z_i = λ x_i + (1 − λ) z_(i−1), z_0 = start; limits centre ± L σ √(λ/(2 − λ) · (1 − (1 − λ)^(2i))).
    Inputs: values, centre, sigma σ, start (centre when None), least (no limit below it) [one unit];
        weight λ [1], over 0 up to 1; width L [1].
    Result: ControlChart with the track "ewma" [the values' unit].
    Example:
        >>> chart = ewma_chart([10.2, 11.5, 11.4, 11.8, 12.1], centre=10.0, sigma=1.0)
        >>> chart.tracks[0].signals
        (4,)

    Range and traps: centre and sigma come from a steady time, not from the readings charted.
    Source: NIST/SEMATECH e-Handbook 6.3.2.4.
    """
    readings = series("values", values)
    middle = finite("centre", centre)
    first = middle if start is None else finite("start", start)
    reach = positive("width", width) * positive("sigma", sigma) * sqrt(_weight(weight) / (2.0 - weight))
    points = tuple(accumulate(readings, lambda z, x: weight * x + (1.0 - weight) * z, initial=first))[1:]
    reaches = [reach * sqrt(1.0 - (1.0 - weight) ** (2 * step)) for step in range(1, len(points) + 1)]
    lower, upper = tuple(middle - each for each in reaches), tuple(middle + each for each in reaches)
    figures = {"centre": middle, "sigma": sigma, "lower_in_the_end": middle - reach, "upper_in_the_end": middle + reach}
    lag = f"It answers late: the newest {_half_life(weight)} of the readings carry only about half its weight."
    told = (lag, NOT_THE_JOINT, *not_below(least, lower))
    return ControlChart("ewma", (Track("ewma", points, middle, drawn_from(least, lower), upper),), figures, told)


def _weight(weight: float) -> float:
    """The weight of the newest reading, over 0 and at most 1."""
    if positive("weight", weight) > 1.0:
        raise UnusableInput("weight", weight, "a share over 0 and at most 1", "0.1 to 0.3 is usual.")
    return weight


def _half_life(weight: float) -> int:
    """How many of the newest readings carry half the weight."""
    count, left = 0, 1.0
    while left > 0.5:
        count, left = count + 1, left * (1.0 - weight)
    return count
