"""Faults per frame or per hour: counts in time order, with exact limits or the classical three sigmas."""

from __future__ import annotations

from collections.abc import Sequence
from math import sqrt

from server.statistics.caveats import NOT_THE_JOINT, few_points
from server.statistics.chart import ControlChart, Track
from server.statistics.errors import UnusableInput
from server.statistics.fault_limits import count_limits
from server.statistics.inputs import positive
from server.statistics.tallies import whole


def count_chart(counts: Sequence[int], exposures: Sequence[float] | None = None, exact: bool = True) -> ControlChart:
    """Chart counts of faults per unit of exposure.

    Equation: c̄ = Σ counts/Σ exposures; limits exact Poisson at c̄·exposure, or c̄ ± 3 √(c̄/exposure) from 0 up.
    Inputs: counts [faults]; exposures [frames, hours, metres of seam …], all 1 when None; exact [yes or no].
    Result: ControlChart with the track "count" [faults per unit of exposure].
    Example:
        >>> count_chart([1, 2, 0, 2, 1, 9]).tracks[0].signals
        (5,)

    Range and traps: one joint may have many faults here; where it is sound or not, use `share_chart`.
    Source: NIST/SEMATECH e-Handbook 6.3.3.1; exact limits by definition.
    """
    numbers = [whole(f"counts[{place}]", count) for place, count in enumerate(counts)]
    spans = [positive(f"exposures[{place}]", span) for place, span in enumerate(exposures or [1.0] * len(numbers))]
    if not numbers or len(numbers) != len(spans):
        raise UnusableInput("exposures", len(spans), f"one for each of {len(numbers)} counts", "Give both for each.")
    mean = sum(numbers) / sum(spans)
    points = tuple(count / span for count, span in zip(numbers, spans, strict=True))
    lower, upper = zip(*(_limits(mean, span, exact) for span in spans), strict=True)
    cause = "It shows when faults grew more frequent, not why."
    caveats = (*few_points(len(numbers)), cause, NOT_THE_JOINT)
    return ControlChart("count", (Track("count", points, mean, lower, upper),), {"mean": mean}, caveats)


def _limits(mean: float, span: float, exact: bool) -> tuple[float | None, float | None]:
    """The lowest and highest rate that are no signal, or none where no fault was ever counted."""
    if mean == 0.0:
        return None, None
    if exact:
        low, high = count_limits(mean * span)
        return (None if low is None else (low + 1) / span), (high - 1) / span
    reach = 3.0 * sqrt(mean / span)
    return max(0.0, mean - reach), mean + reach
