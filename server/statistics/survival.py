"""How many joints still hold after a given time, when most are still in service."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import exp, log, sqrt

from server.statistics.inputs import proportion
from server.statistics.lifetimes import counted_lifetimes, lifetimes
from server.statistics.quantiles import normal_quantile


@dataclass(frozen=True, slots=True)
class SurvivalStep:
    """One time of failure: who was still under watch, who failed, and the share surviving from then on."""

    time: float
    at_risk: int
    failures: int
    survival: float
    low: float | None
    high: float | None


@dataclass(frozen=True, slots=True)
class SurvivalCurve:
    """The steps, the median life (None when more than half survive), the last time watched, and what it cannot tell."""

    steps: tuple[SurvivalStep, ...]
    median: float | None
    watched_until: float
    failures: int
    count: int
    cannot_tell: tuple[str, ...]


def kaplan_meier(times: Iterable[float], failed: Iterable[bool], confidence: float = 0.95) -> SurvivalCurve:
    """Give the share surviving against time, those still in service counted for as long as they were watched.

    Equation: S(t) = Π(1 − d/n); Greenwood G = Σ d/(n(n − d)); ends S^exp(±z √G/ln S).
    Inputs: times [any one unit]; failed [yes or no] per life; confidence [1].
    Result: SurvivalCurve; survival [1].
    Example:
        >>> [round(step.survival, 3) for step in kaplan_meier([2, 3, 5, 5], [True, False, True, False]).steps]
        [0.75, 0.375]

    Range and traps: that a life left the watch must have nothing to do with its condition. At S = 0 no interval.
    Source: Kaplan and Meier, Journal of the American Statistical Association 53 (1958) 457; NIST 8.2.1.5.
    """
    lives, ends = lifetimes(times, failed)
    return survival_of(Counter(lives), Counter(life for life, end in zip(lives, ends, strict=True) if end), confidence)


def survival_of(leaving: Mapping[float, int], deaths: Mapping[float, int], confidence: float = 0.95) -> SurvivalCurve:
    """Give the share surviving against time of lives that were counted by their length.

    Equation: as `kaplan_meier`, d and n summed from the counts.
    Inputs: leaving, length of life [any one unit] -> how many left the watch then [lives]; deaths, of these failed.
    Result: SurvivalCurve; survival [1].
    Example:
        >>> survival_of({2: 1, 3: 1, 5: 2}, {2: 1, 5: 1}) == kaplan_meier([2, 3, 5, 5], [True, False, True, False])
        True

    Range and traps: as `kaplan_meier`; no more may fail at a time than leave the watch then.
    Source: as cited there.
    """
    times = counted_lifetimes(leaving, deaths)
    deviate = normal_quantile((1.0 + proportion("confidence", confidence)) / 2.0)
    count, failures = sum(leaving.values()), sum(deaths.values())
    steps, survival, greenwood, at_risk = [], 1.0, 0.0, count
    for time in times:
        if lost := deaths.get(time, 0):
            survival *= 1.0 - lost / at_risk
            greenwood += lost / (at_risk * (at_risk - lost)) if lost < at_risk else 0.0
            steps.append(SurvivalStep(time, at_risk, lost, survival, *_ends(survival, greenwood, deviate)))
        at_risk -= leaving[time]
    median = next((step.time for step in steps if step.survival <= 0.5), None)
    return SurvivalCurve(tuple(steps), median, times[-1], failures, count, _caveats(failures))


def _ends(survival: float, greenwood: float, deviate: float) -> tuple[float | None, float | None]:
    """The ends of the interval on the scale of ln(−ln S), which keeps them between 0 and 1."""
    if survival <= 0.0:
        return None, None
    reach = deviate * sqrt(greenwood) / log(survival)
    return exp(log(survival) * exp(-reach)), exp(log(survival) * exp(reach))


def _caveats(failures: int) -> tuple[str, ...]:
    """What this curve cannot tell."""
    later = "It says nothing beyond the longest life watched."
    silent = "A failure nobody reported counts as a joint that holds."
    rests = "1 failure" if failures == 1 else f"{failures} failures"
    few = (f"It rests on {rests}; each step may move a long way with the next.",) if failures < 10 else ()
    return (*few, later, silent)
