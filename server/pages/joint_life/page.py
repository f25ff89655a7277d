"""What the page of joint lives shows: the rates by joint, the curve with its band, a fit where there is enough."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from server.charts.axes import even_axis
from server.charts.curve_sheet import Curve, CurveSheet, lay_out
from server.statistics.survival import SurvivalCurve, SurvivalStep
from server.work.joint_life import JointLife, Rate

PER_JOINT_YEARS = 1000
SHOWN = 40


@dataclass(frozen=True, slots=True)
class JointLifePage:
    """One answer about lives in the field."""

    found: JointLife
    every: bool

    @property
    def per(self) -> int:
        """To how many joint-years rates are told."""
        return PER_JOINT_YEARS

    def rate_words(self, rate: Rate) -> str:
        """Say a rate with its exact interval, in failures to a thousand joint-years."""
        ends = (rate.rate.estimate, rate.rate.low, rate.rate.high)
        middle, low, high = (_three_digits(PER_JOINT_YEARS * each) for each in ends)
        return f"{middle} ({low} to {high})"

    @property
    def rates(self) -> Sequence[Rate]:
        """The rates shown: those with a failure, and then as many as fit."""
        return self.found.rates if self.every else self.found.rates[:SHOWN]

    @property
    def curve(self) -> CurveSheet | None:
        """The share that still holds against years in the field, with its band."""
        return None if self.found.curve is None else survival_sheet(self.found.curve)

    @property
    def cannot_tell(self) -> list[str]:
        """What these figures cannot tell."""
        own = [
            "A claim counts against the joint it names as reported; whether the weld failed is for a laboratory.",
            "In use means from the shipment to today, to its remaking, or to the day its frame came back to stay.",
            "Weeks in the house before a frame went out again are counted in; how far it went is not known here.",
        ]
        curve, fit = self.found.curve, self.found.fit
        longest = [f"The longest life watched is {curve.watched_until:.3g} years."] if curve else []
        return [*own, *(curve.cannot_tell if curve else ()), *longest, *(fit.cannot_tell if fit else ())]


def _three_digits(number: float) -> str:
    """Three digits that count, written out: a table has no room for powers of ten."""
    return f"{number:.3g}" if number < 999.5 else f"{float(f'{number:.3g}'):,.0f}"


@lru_cache(maxsize=16)
def survival_sheet(curve: SurvivalCurve) -> CurveSheet:
    """Lay the curve out as stairs, its band behind it, from the lowest share told up to all."""
    steps = curve.steps
    low = min((step.low for step in steps if step.low is not None), default=1.0)
    share = even_axis("share that holds", _floor(low), 1.0)
    years = even_axis("years in the field", 0.0, curve.watched_until)
    until = curve.watched_until
    stairs = _stairs([(0.0, 1.0), *((step.time, step.survival) for step in steps)], until)
    curves = [Curve("share that holds", "marked", stairs)]
    if banded := [step for step in steps if step.low is not None and step.high is not None]:
        curves.insert(0, Curve("95 % band", "area", _band(banded, until)))
    words = f"{curve.count} lives, {curve.failures} claimed, watched for up to {until:.2g} years"
    return lay_out(words, curves, (years, share))


def _floor(low: float) -> float:
    """A round share below the lowest, so that a few failures among many are seen."""
    for floor in (0.999, 0.995, 0.99, 0.95, 0.9, 0.8, 0.5):
        if low > floor:
            return floor
    return 0.0


def _stairs(points: Sequence[tuple[float, float]], until: float) -> list[tuple[float, float]]:
    found = [points[0]]
    for (_, before), (time, after) in pairwise(points):
        found += [(time, before), (time, after)]
    return [*found, (until, points[-1][1])]


def _band(steps: Sequence[SurvivalStep], until: float) -> list[tuple[float, float]]:
    upper = _stairs([(0.0, 1.0), *((step.time, step.high or 0.0) for step in steps)], until)
    lower = _stairs([(0.0, 1.0), *((step.time, step.low or 0.0) for step in steps)], until)
    return [*upper, *reversed(lower)]
