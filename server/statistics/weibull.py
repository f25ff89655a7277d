"""A life curve fitted to failures and to those still in service."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import exp, gamma, log, sqrt
from typing import TYPE_CHECKING, NamedTuple

from server.statistics.errors import UnusableInput
from server.statistics.inputs import finite, proportion
from server.statistics.interval import Interval
from server.statistics.lifetimes import counted_lifetimes, lifetimes
from server.statistics.quantiles import normal_quantile

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

FAILURES_NEEDED = 5
_WATCH_SHAPE = "From few failures the shape comes out too high: at five, about a fifth on average."
_OUTSIDE = "Beyond the longest life watched the curve is a guess."


class TooFewFailures(UnusableInput):
    """A life curve asked for with fewer failures than can carry one."""


@dataclass(frozen=True, slots=True)
class WeibullFit:
    """Shape β and scale η with their intervals and standard errors, fit figures, and what it cannot tell."""

    shape: Interval
    scale: Interval
    shape_error: float
    scale_error: float
    negative_log_likelihood: float
    failures: int
    count: int
    cannot_tell: tuple[str, ...] = (_WATCH_SHAPE, _OUTSIDE)

    @property
    def mean(self) -> float:
        """The mean life, η Γ(1 + 1/β)."""
        return self.scale.estimate * gamma(1.0 + 1.0 / self.shape.estimate)

    @property
    def sd(self) -> float:
        """The standard deviation of lives, η √(Γ(1 + 2/β) − Γ(1 + 1/β)²)."""
        first, second = (gamma(1.0 + power / self.shape.estimate) for power in (1.0, 2.0))
        return self.scale.estimate * sqrt(second - first**2)

    def surviving(self, time: float) -> float:
        """The share surviving a time, exp(−(t/η)^β)."""
        return exp(-((finite("time", time) / self.scale.estimate) ** self.shape.estimate))

    @property
    def aic(self) -> float:
        """Akaike's figure for comparing curves: 2·2 − 2 ln L."""
        return 4.0 + 2.0 * self.negative_log_likelihood


def weibull_fit(times: Iterable[float], failed: Iterable[bool], confidence: float = 0.95) -> WeibullFit:
    """Fit a Weibull curve by maximum likelihood, lives still running included.

    Equation: Σt^β ln t/Σt^β − 1/β = mean ln t of failures; η = (Σt^β/r)^(1/β); intervals on the log scale.
    Inputs: times [any one unit]; failed [yes or no] per life; confidence [1].
    Result: WeibullFit; shape [1], scale [the times' unit].
    Example:
        >>> lives = [16, 34, 53, 75, 93, 120, 150]
        >>> print(weibull_fit(lives, [True] * 6 + [False]).shape)
        1.53 (0.782 to 2.98, 95 %)

    Range and traps: five failures or more, not all at one time; else it refuses and names `weibayes`.
    Source: Meeker and Escobar, Statistical Methods for Reliability Data, chapter 8; NIST 8.4.1.3.
    """
    lives, ends = lifetimes(times, failed)
    return weibull_of(Counter(lives), Counter(life for life, end in zip(lives, ends, strict=True) if end), confidence)


def weibull_of(leaving: Mapping[float, int], deaths: Mapping[float, int], confidence: float = 0.95) -> WeibullFit:
    """Fit a Weibull curve to lives that were counted by their length.

    Equation: as `weibull_fit`, each sum weighted by the counts.
    Inputs: leaving, length of life [any one unit] -> how many left the watch then [lives]; deaths, of these failed.
    Result: WeibullFit; shape [1], scale [the times' unit].
    Example:
        >>> failed = dict.fromkeys([16, 34, 53, 75, 93, 120], 1)
        >>> print(weibull_of(failed | {150: 1}, failed).shape)
        1.53 (0.782 to 2.98, 95 %)

    Range and traps: as `weibull_fit`; no more may fail at a time than leave the watch then.
    Source: as cited there.
    """
    import numpy as np

    times, failures = counted_lifetimes(leaving, deaths), sum(deaths.values())
    deviate = normal_quantile((1.0 + proportion("confidence", confidence)) / 2.0)
    if failures < FAILURES_NEEDED:
        remedy = "Use the survival curve, or `weibayes` with a shape stated beforehand."
        raise TooFewFailures("failures", failures, f"{FAILURES_NEEDED} or more", remedy)
    lives = _Counted(
        np.log(np.array(times)),
        np.array([leaving[time] for time in times], dtype=float),
        np.array([deaths.get(time, 0) for time in times], dtype=float),
    )
    shape = _shape(lives)
    log_scale = _log_scale(lives, shape)
    errors, likelihood = _errors(lives, shape, log_scale)
    shape_ends, scale_ends = (
        Interval(middle, middle * exp(-deviate * error), middle * exp(deviate * error), confidence)
        for middle, error in ((shape, errors[0]), (exp(log_scale), errors[1]))
    )
    shape_error, scale_error = errors[0] * shape, errors[1] * exp(log_scale)
    return WeibullFit(shape_ends, scale_ends, shape_error, scale_error, -likelihood, failures, sum(leaving.values()))


class _Counted(NamedTuple):
    """Logarithms of times, with how many lives were so long and how many of these failed."""

    logs: NDArray[np.float64]
    lives: NDArray[np.float64]
    failed: NDArray[np.float64]


def _shape(of: _Counted) -> float:
    """The shape at which the likelihood is highest, by halving on its one falling slope."""
    import numpy as np

    longest, middle = of.logs.max(), float(of.failed @ of.logs) / float(of.failed.sum())
    if longest - middle < 1e-9:
        raise UnusableInput("times", exp(longest), "failures at different times", "Record when each failed, closer.")
    low, high = -10.0, 10.0
    while high - low > 1e-13:
        shape = exp((low + high) / 2.0)
        weights = of.lives * np.exp(shape * (of.logs - longest))
        slope = float(weights @ of.logs / weights.sum()) - 1.0 / shape - middle
        low, high = (low, log(shape)) if slope > 0.0 else (log(shape), high)
    return exp((low + high) / 2.0)


def _log_scale(of: _Counted, shape: float) -> float:
    """The logarithm of the scale that goes with a shape, without powers that overflow."""
    import numpy as np

    longest = float(of.logs.max())
    return longest + log(float(of.lives @ np.exp(shape * (of.logs - longest))) / float(of.failed.sum())) / shape


def _errors(of: _Counted, shape: float, log_scale: float) -> tuple[tuple[float, float], float]:
    """Standard errors of ln β and ln η from the observed information, and the log likelihood."""
    import numpy as np

    powers = shape * (of.logs - log_scale)
    hazards, failures = of.lives * np.exp(powers), float(of.failed.sum())
    of_scale, of_both = shape**2 * failures, -shape * float(hazards @ powers)
    of_shape = failures + float(hazards @ powers**2)
    room = of_scale * of_shape - of_both**2
    likelihood = failures * log(shape) + float(of.failed @ (powers - of.logs)) - float(hazards.sum())
    return (sqrt(of_scale / room), sqrt(of_shape / room)), likelihood
